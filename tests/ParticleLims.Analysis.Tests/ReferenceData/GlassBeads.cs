using System.Globalization;

namespace ParticleLims.Analysis.Tests.ReferenceData;

/// <summary>NIST's sieving of the glass beads SRM 1017b: percent passing by bottle and run.</summary>
internal static class GlassBeads
{
    /// <summary>The nine complete bottles; for each its two runs, one value each.</summary>
    public static List<List<double[]>> Bottles(string sieve) => ReferenceFile.Rows("srm_1017b_homogeneity.csv")
        .Where(row => row["sieve_no"] == sieve && row["bottle"] != "48").GroupBy(row => row["bottle"])
        .Select(bottle => bottle.OrderBy(row => row.Number("run")).Select(row => new[] { (double)row.Number("percent") }).ToList()).ToList();

    public static ReferenceFile.Row Expected(string sieve) => ReferenceFile.Rows("srm_1017b_homogeneity_anova.csv").Single(row => row["sieve"].Trim() == sieve);

    public static double Value(ReferenceFile.Row row, string column) => double.Parse(row[column].Trim(), CultureInfo.InvariantCulture);
}
