using System.Globalization;
using ParticleLims.Analysis.Quantities;
using ParticleLims.Analysis.Sieves;
using ParticleLims.Analysis.Sieves.Tares;

namespace ParticleLims.Analysis.Tests.Science;

/// <summary>The worked numbers of the pages on test sieves.</summary>
internal static class DocumentedSieves
{
    private static readonly Aperture SixtyThree = Aperture.FromMicrometres(63m);

    public static string Tolerance() =>
        $"w = 63 µm: Y = {Text(WireClothTolerances.MeanDeviation(SixtyThree), 3)} µm, X = {Text(WireClothTolerances.SingleDeviation(SixtyThree), 3)} µm, Z = {Text(WireClothTolerances.IntermediateDeviation(SixtyThree), 3)} µm";

    public static IEnumerable<string> Inspection()
    {
        var inspection = new ApertureInspection { Nominal = SixtyThree, MeanMicrometres = 64.2, LargestMicrometres = 80, Count = 100, CountBeyondIntermediate = 4 };
        var apart = ApertureJudgement.Of(inspection with { WarpMicrometres = 61.6, WeftMicrometres = 66.8, WireMicrometres = 45.1m }, WireClothTolerances.Table)!;
        return [.. ApertureJudgement.Of(inspection, WireClothTolerances.Table)!.Points.Select(point => point.Words), apart.Points[1].Words, .. apart.Unjudged];
    }

    public static string Effective()
    {
        var aperture = CertificateCurve.Through(
        [
            new CertifiedPoint { ApertureMicrometres = 60, PassingPercent = 20, PassingUncertaintyPercent = 0.5 },
            new CertifiedPoint { ApertureMicrometres = 70, PassingPercent = 50, PassingUncertaintyPercent = 0.5 },
        ]).Read(32, 0.8).Aperture!;
        return $"20 and 50 % (u = 0.5 %) pass 60 and 70 µm, 32 % (u = 0.8 %) passed: effective aperture {Text(aperture.Micrometres, 3)} µm, u = {Text(aperture.StandardUncertaintyMicrometres, 3)} µm ({Text(aperture.ObservationMicrometres, 3)} from the sieving, {Text(aperture.CertificateMicrometres, 3)} from the certificate)";
    }

    public static string Tare()
    {
        long[] milligrams = [0, 1, -1, 0, 30];
        var finding = TareHistory.Findings([.. milligrams.Select(change => Mass.FromMicrograms(300_000_000 + (1_000 * change)))], Mass.FromMicrograms(3_000)).Single();
        return $"300 g, then 1, -1, 0 and 30 mg beside it, repeatability 3 mg: {finding.Words}";
    }

    public static string Load() =>
        $"a 63 µm sieve of 200 mm carries at most {Text((double)SieveLoad.Most(SixtyThree, 200).Grams, 3)} g, a 5 mm sieve of 300 mm {Text((double)SieveLoad.Most(Aperture.FromMicrometres(5_000m), 300).Grams, 1)} g";

    private static string Text(double value, int digits) => value.ToString("F" + digits.ToString(CultureInfo.InvariantCulture), CultureInfo.InvariantCulture);
}
