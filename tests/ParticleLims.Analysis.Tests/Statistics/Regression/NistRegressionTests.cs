using System.Globalization;
using ParticleLims.Analysis.Statistics.Regression;
using ParticleLims.Analysis.Tests.ReferenceData;

namespace ParticleLims.Analysis.Tests.Statistics.Regression;

/// <summary>
/// Against the certified values of the NIST Statistical Reference Datasets, linear regression (https://www.itl.nist.gov/div898/strd/). As the values enter as decimal numbers and all is computed with
/// 31 digits, even Filip and Wampler5 have all digits that are certified.
/// </summary>
public sealed class NistRegressionTests
{
    private static readonly IReadOnlyList<ReferenceFile.Row> Certified = ReferenceFile.Rows("nist_strd_linear_certified.csv");

    public static TheoryData<string> Datasets => [.. Certified.Select(row => row["dataset"]).Distinct()];

    [Theory]
    [MemberData(nameof(Datasets))]
    public void Coefficients_and_standard_errors_have_thirteen_certified_digits(string dataset)
    {
        var result = Fit(dataset);
        var certified = Certified.Where(row => row["dataset"] == dataset && row["quantity"].StartsWith('B')).ToList();
        result.Coefficients.Length.ShouldBe(certified.Count);
        for (var i = 0; i < certified.Count; i++)
        {
            Digits.Agreeing(result.Coefficients[i].Value, Number(certified[i]["certified_value"])).ShouldBeGreaterThan(13, certified[i]["quantity"]);
            Digits.Agreeing(result.Coefficients[i].StandardError!.Value, Number(certified[i]["certified_sd"])).ShouldBeGreaterThan(13, certified[i]["quantity"]);
        }
    }

    [Theory]
    [MemberData(nameof(Datasets))]
    public void Residual_deviation_R_squared_and_F_have_thirteen_certified_digits(string dataset)
    {
        var result = Fit(dataset);
        Digits.Agreeing(result.ResidualDeviation!.Value, Number(Value(dataset, "residual_sd"))).ShouldBeGreaterThan(13);
        Digits.Agreeing(result.RSquared!.Value, Number(Value(dataset, "R2"))).ShouldBeGreaterThan(13);
        var f = Value(dataset, "ANOVA_Regression_df_SS_MS_F").Split(' ')[3];
        if (f == "Infinity")
        {
            result.F.ShouldBeNull();
        }
        else
        {
            Digits.Agreeing(result.F!.Value, Number(f)).ShouldBeGreaterThan(13);
        }
    }

    private static RegressionResult Fit(string dataset)
    {
        var rows = ReferenceFile.Text("nist_strd_linear_data.csv").Split('\n').Select(line => line.Trim().Split(',')).Where(cells => cells[0] == dataset)
            .Select(cells => cells.Skip(2).Where(cell => cell.Length > 0).Select(cell => decimal.Parse(cell, NumberStyles.Float, CultureInfo.InvariantCulture)).ToArray()).ToList();
        var y = rows.ConvertAll(row => row[0]);
        var columns = Enumerable.Range(1, rows[0].Length - 1).Select(i => rows.ConvertAll(row => row[i])).ToList();
        return dataset switch
        {
            "NoInt1" or "NoInt2" => LinearRegression.Of(columns, y, hasConstant: false),
            "Longley" => LinearRegression.Of(columns, y, hasConstant: true),
            _ => LinearRegression.Polynomial(columns[0], y, Certified.Count(row => row["dataset"] == dataset && row["quantity"].StartsWith('B')) - 1),
        };
    }

    private static string Value(string dataset, string quantity) => Certified.Single(row => row["dataset"] == dataset && row["quantity"] == quantity)["certified_value"];

    private static double Number(string text) => double.Parse(text, CultureInfo.InvariantCulture);
}
