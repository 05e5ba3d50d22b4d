using System.Globalization;
using ParticleLims.Analysis.Distributions;
using ParticleLims.Analysis.Distributions.Moments;
using ParticleLims.Analysis.ModelFits;
using ParticleLims.Analysis.Quantities;
using ParticleLims.Analysis.Tests.ReferenceData;

namespace ParticleLims.Analysis.Tests.Science;

/// <summary>The worked numbers of the pages on distributions and models.</summary>
internal static class DocumentedModelNumbers
{
    public static string Versions() => $"versions that can be repeated: {string.Join(", ", Engine.Versions)}";

    public static string Density()
    {
        var one = Requests.Given((20m, 10m), (40m, 40m)).Result().Fractions[1];
        return $"30 % between 20 and 40 µm: q3 = {Text(one.DensityPerMicrometre, 3)} per µm, q3*(ln x) = {Text(one.LogarithmicDensity, 4)}";
    }

    public static string Mode() =>
        $"10, 40, 90 and 97 % pass 20, 40, 100 and 125 µm: mode {Text(Requests.Given((20m, 10m), (40m, 40m), (100m, 90m), (125m, 97m)).Result().Summary!.Mode!.ModeMicrometres, 2)} µm";

    public static string Uniformity()
    {
        var summary = WorkedSieveExamples.Evaluate("Das_2_1", Interpolation.Linear).Summary!;
        return $"Das, problem 2.1, linear: C_u = {Text(summary.Uniformity!.Value, 4)}, C_c = {Text(summary.Curvature!.Value, 4)}";
    }

    public static string Geometric()
    {
        var geometric = Requests.Given((20m, 0m), (40m, 50m), (80m, 100m)).Result().Summary!.Geometric!;
        return $"0, 50 and 100 % pass 20, 40 and 80 µm: x_g = {Text(geometric.MeanMicrometres, 3)} µm, s_g = {Text(geometric.StandardDeviation, 4)}";
    }

    public static string Moments()
    {
        var moments = Requests.Given((100m, 0m), (250m, 100m)).Result().Summary!.Moments!;
        return $"all mass between 100 and 250 µm, density constant: M(1,3) = {Text(moments.Moment(1), 1)} µm, M(-1,3) = {Text(moments.Moment(-1), 9)} per µm, standard deviation {Text(moments.StandardDeviationMicrometres, 4)} µm";
    }

    public static string Means()
    {
        var moments = SizeMoments.OfSizes(ReferenceFile.Rows("mean_diameter_mccabe.csv").Where(row => row["opening_mm"] != "pan" && row.Has("Dmean_mm"))
            .Select(row => ((double)row.Number("mass_fraction"), (double)row.Number("Dmean_mm"))).ToList());
        return $"crushed quartz, McCabe table 28.2, mean sizes as printed: x(1,2) = {Text(moments.Mean(1, 2), 4)} mm, x(1,3) = {Text(moments.Mean(1, 3), 4)} mm, x(3,0) = {Text(moments.Mean(3, 0), 4)} mm";
    }

    public static string Surface() =>
        $"x(1,2) = 20 µm, ρ = 2.71 g/cm³, f = 1.5: S_V = {Text(SpecificSurface.PerVolume(20, 1.5), 2)} m²/cm³, S_m = {Text(SpecificSurface.PerMass(20, 1.5, 2.71), 4)} m²/g";

    public static string FinenessClass() =>
        $"49.9 % pass 125 µm and 90 % pass 180 µm: {(Requests.Given((125m, 49.9m), (180m, 90m)).Result().Summary!.FinenessClass == Analysis.Distributions.FinenessClass.Fine ? "fine" : "another class")}";

    public static string Modulus()
    {
        var modulus = Requests.Given((4750m, 98m), (2360m, 77m), (1180m, 49.6m), (600m, 14.6m), (300m, 2m), (150m, 1m)).Result().Summary!.FinenessModulus!;
        return $"98, 77, 49.6, 14.6, 2 and 1 % pass 4.75, 2.36, 1.18, 0.6, 0.3 and 0.15 mm: FM {(modulus.Relation == Relation.Above ? "at least" : "exactly")} {modulus.Value.ToString(3, Rounding.HalfEven)}";
    }

    public static string LogNormal()
    {
        var model = Of(Model.LogNormal, 265.9214, 1 / Math.Log(1.7));
        return $"x50 = 265.9214 µm and s_g = 1.7: Sauter mean {Text(model.SauterMeanMicrometres, 2)} µm, D16 = {Text(model.SizeAtPercent(16), 1)} µm";
    }

    public static string Power()
    {
        var model = Of(Model.GatesGaudinSchuhmann, 500, 0.7);
        return $"k = 500 µm and m = 0.7: D50 = {Text(model.SizeAtPercent(50), 4)} µm, {Text(model.PassingPercentAt(100), 2)} % pass 100 µm";
    }

    public static string Weighted()
    {
        var fit = Doll();
        return $"Doll's ten points: n = {Text(fit.Slope, 5)} ± {Text(fit.SlopeStandardError, 5)}, x' = {Text(fit.SizeMicrometres, 4)} ± {Text(fit.SizeStandardError, 4)} µm, χ²/ν = {Text(fit.ReducedChiSquare, 5)} %²";
    }

    public static string Criterion() => $"Doll's ten points, Rosin-Rammler by weighted least squares: AICc = {Text(Doll().Aicc, 4)}";

    public static string Cautions() =>
        $"5 above and 5 below in 3 runs: probability of so few {Text(FitCautions.ChanceOfRuns(5, 5, 3), 4)}; 6 of 6 on one side: {Text(FitCautions.ChanceOfRun(6, 6), 5)}";

    public static string ModelMeans()
    {
        var model = Of(Model.RosinRammler, 150, 1.2);
        return $"x' = 150 µm and n = 1.2: Sauter mean {Text(model.SauterMeanMicrometres, 4)} µm, mean by mass {Text(model.Moment(1), 3)} µm";
    }

    private static FittedModel Doll() => Requests.Given(ReferenceFile.Rows("rrsb_examples.csv").Where(row => row["example"] == "Doll_A")
        .Select(row => (row.Number("aperture_um"), 100m - row.Number("R_pct"))).ToArray()).Result().Models[1];

    private static FittedModel Of(Model model, double size, double slope) => new()
    {
        Model = model, Method = FitMethod.StraightLine, SizeMicrometres = size, Slope = slope, Intercept = -slope * Math.Log(size), RSquared = 1, PointsUsed = 2, PointsLeftOut = 0,
    };

    private static string Text(double? value, int digits) => value.ShouldNotBeNull().ToString("F" + digits.ToString(CultureInfo.InvariantCulture), CultureInfo.InvariantCulture);
}
