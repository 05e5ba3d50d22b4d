using System.Globalization;

namespace ParticleLims.Analysis.Tests.ReferenceData;

/// <summary>The sets of the NIST Statistical Reference Datasets for one-way analysis of variance.</summary>
internal static class Anova
{
    public static IReadOnlyList<ReferenceFile.Row> Certified { get; } =
        [.. ReferenceFile.Rows("nist_strd_anova_certified.csv"), .. ReferenceFile.Rows("nist_strd_anova_larger_certified.csv")];

    public static List<List<decimal>> Groups(string dataset)
    {
        var small = ReferenceFile.Rows("nist_strd_anova_data.csv").Where(row => row["dataset"] == dataset).Select(row => (Group: row["group"], Y: row.Number("y"), Count: 1));
        var large = ReferenceFile.Rows("nist_strd_anova_larger.csv").Where(row => row["dataset"] == dataset)
            .Select(row => (Group: row["treatment"], Y: row.Number("y"), Count: (int)row.Number("count")));
        return small.Concat(large).GroupBy(row => row.Group).Select(group => group.SelectMany(row => Enumerable.Repeat(row.Y, row.Count)).ToList()).ToList();
    }

    public static double Value(string dataset, string column) =>
        double.Parse(Certified.Single(row => row["dataset"] == dataset)[column], NumberStyles.Float, CultureInfo.InvariantCulture);
}
