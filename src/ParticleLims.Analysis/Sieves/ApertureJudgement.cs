using System.Collections.Immutable;
using System.Globalization;

namespace ParticleLims.Analysis.Sieves;

/// <summary>
/// Judges an inspection by an edition's tolerances (docs/science/sieve-inspection.md): the mean within Y (that of warp and that of weft each, where they are told apart), the largest not beyond X, not more than a few of a hundred beyond Z, the standard deviation where
/// the edition limits it, the wires within the edition's diameters, and enough apertures measured. Source: ISO 3310-1, clause 5, from memory; sieves of at most 20 apertures are measured whole (ISO 3310-1:2016, as quoted publicly).
/// </summary>
public static class ApertureJudgement
{
    private const int FewApertures = 20;

    /// <summary>The verdict; null if the edition has no row for the sieve.</summary>
    /// <param name="inspection">What was measured.</param>
    /// <param name="table">The edition.</param>
    /// <param name="leastCount">How many apertures are to be measured at least, of those that the sieve has; the method says so.</param>
    /// <exception cref="ArgumentException">A measured number that is not above zero and finite, one direction's mean without the other, a negative count, or a least count below one.</exception>
    public static ApertureVerdict? Of(ApertureInspection inspection, ToleranceTable table, int leastCount = FewApertures)
    {
        ArgumentNullException.ThrowIfNull(inspection);
        ArgumentNullException.ThrowIfNull(table);
        ArgumentOutOfRangeException.ThrowIfLessThan(leastCount, 1);
        Check(inspection);
        if (table.Find(inspection.Nominal) is not { } row)
        {
            return null;
        }

        ImmutableArray<AperturePoint> points =
        [
            .. Means(inspection, row),
            .. new[] { Largest(inspection, row), Smallest(inspection, row), Beyond(inspection, row, table.IntermediatePercent), Deviation(inspection, row), Wire(inspection, row), Count(inspection, leastCount) }.OfType<AperturePoint>(),
        ];
        return new ApertureVerdict
        {
            Conforms = points.Any(point => point.IsKept is false) ? false : points.Any(point => point.IsKept is null) ? null : true,
            Edition = table.Edition,
            Points = points,
            Unjudged = inspection.WireMicrometres is { } wire && row.WireMostMicrometres is null
                ? [string.Create(CultureInfo.InvariantCulture, $"The mean diameter of the wires is {wire:0.0##} µm; the table has no figures for it, so that it is not judged.")]
                : [],
        };
    }

    private static IEnumerable<AperturePoint> Means(ApertureInspection inspection, ToleranceRow row) =>
        row.MeanMicrometres is not { } permitted ? []
            : inspection is { WarpMicrometres: { } warp, WeftMicrometres: { } weft }
                ? [Mean("mean aperture of the warp", warp, permitted, row), Mean("mean aperture of the weft", weft, permitted, row)]
                : [Mean("mean aperture", inspection.MeanMicrometres, permitted, row)];

    private static AperturePoint Mean(string what, double mean, decimal permitted, ToleranceRow row)
    {
        var distance = Distance(mean, row);
        return Point(
            Math.Abs(distance) <= (double)permitted,
            $"The {what} {mean:0.0##} µm is {Math.Abs(distance):0.0##} µm {(distance < 0 ? "below" : "above")} nominal; {permitted} µm are permitted.");
    }

    private static AperturePoint? Largest(ApertureInspection inspection, ToleranceRow row)
    {
        if (row.SingleMicrometres is not { } permitted)
        {
            return null;
        }

        var limit = row.Nominal.Micrometres + permitted;
        return Point(Distance(inspection.LargestMicrometres, row) <= (double)permitted, $"The largest aperture is {inspection.LargestMicrometres:0.0##} µm; up to {limit:0.###} µm are permitted.");
    }

    private static AperturePoint? Smallest(ApertureInspection inspection, ToleranceRow row)
    {
        if (row.SingleBelowMicrometres is not { } permitted)
        {
            return null;
        }

        var limit = row.Nominal.Micrometres - permitted;
        return inspection.SmallestMicrometres is { } smallest
            ? Point(-Distance(smallest, row) <= (double)permitted, $"The smallest aperture is {smallest:0.0##} µm; down to {limit:0.###} µm are permitted.")
            : Point(null, $"The smallest aperture was not looked for; down to {limit:0.###} µm are permitted.");
    }

    private static AperturePoint? Beyond(ApertureInspection inspection, ToleranceRow row, decimal percent)
    {
        if (row.IntermediateMicrometres is not { } z)
        {
            return null;
        }

        var limit = row.Nominal.Micrometres + z;
        if (inspection.LargestMicrometres <= (double)limit)
        {
            return Point(true, $"No aperture is above {limit:0.###} µm, which {percent:0.##} % may be.");
        }

        return inspection.CountBeyondIntermediate is { } beyond
            ? Point(100m * beyond <= percent * inspection.Count, $"{beyond} of {inspection.Count} apertures are above {limit:0.###} µm, which {percent:0.##} % may be.")
            : Point(null, $"How many apertures are above {limit:0.###} µm was not counted; {percent:0.##} % may be.");
    }

    private static AperturePoint? Deviation(ApertureInspection inspection, ToleranceRow row)
    {
        if (row.DeviationMicrometres is not { } permitted)
        {
            return null;
        }

        return inspection.DeviationMicrometres is { } deviation
            ? Point(deviation <= (double)permitted, $"The standard deviation of the apertures is {deviation:0.0##} µm; {permitted} µm are permitted.")
            : Point(null, $"The standard deviation of the apertures was not determined; {permitted} µm are permitted.");
    }

    private static AperturePoint? Wire(ApertureInspection inspection, ToleranceRow row) =>
        inspection.WireMicrometres is { } wire && row is { WireLeastMicrometres: { } least, WireMostMicrometres: { } most }
            ? Point(wire >= least && wire <= most, $"The mean diameter of the wires is {wire:0.0##} µm; {least} to {most} µm are permitted.")
            : null;

    private static AperturePoint Count(ApertureInspection inspection, int leastCount)
    {
        var asked = Math.Min(leastCount, inspection.AperturesOfTheSieve ?? int.MaxValue);
        asked = inspection.AperturesOfTheSieve is <= FewApertures and { } all ? all : asked;
        return Point(inspection.Count >= asked, $"{inspection.Count} apertures were measured; at least {asked} are asked for.");
    }

    private static void Check(ApertureInspection inspection)
    {
        double[] sizes =
        [
            inspection.MeanMicrometres, inspection.LargestMicrometres, inspection.WarpMicrometres ?? inspection.MeanMicrometres, inspection.WeftMicrometres ?? inspection.MeanMicrometres,
            (double)(inspection.WireMicrometres ?? 1m),
        ];
        if (Array.Exists(sizes, size => size is not (> 0 and <= 1_000_000)) || inspection.DeviationMicrometres is not (null or (>= 0 and <= 1_000_000))
            || inspection.SmallestMicrometres is not (null or (> 0 and <= 1_000_000)))
        {
            throw new ArgumentException("Measured apertures lie above 0 µm and at most at 1 m.", nameof(inspection));
        }

        if (inspection.WarpMicrometres is null != inspection.WeftMicrometres is null)
        {
            throw new ArgumentException("The means of warp and weft are given together.", nameof(inspection));
        }

        if (inspection.Count < 1 || inspection.CountBeyondIntermediate < 0 || inspection.CountBeyondIntermediate > inspection.Count || inspection.AperturesOfTheSieve < 1)
        {
            throw new ArgumentException("At least one aperture is measured, and no count is below zero.", nameof(inspection));
        }
    }

    /// <summary>The distance from nominal, free of the binary rounding of the nominal aperture.</summary>
    private static double Distance(double micrometres, ToleranceRow row) => Math.Round((micrometres - (double)row.Nominal.Micrometres) * 1e6) / 1e6;

    private static AperturePoint Point(bool? kept, FormattableString words) => new() { IsKept = kept, Words = words.ToString(CultureInfo.InvariantCulture) };
}
