using System.Globalization;
using ParticleLims.Analysis.ModelFits;
using ParticleLims.Analysis.Tests.ReferenceData;

namespace ParticleLims.Analysis.Tests.ModelFits;

/// <summary>Against the certified values of the NIST Statistical Reference Datasets for linear regression (https://www.itl.nist.gov/div898/strd/).</summary>
public sealed class NistLinearTests
{
    private static IReadOnlyList<ReferenceFile.Row> Certified { get; } = ReferenceFile.Rows("nist_strd_linear_certified.csv");

    [Fact]
    public void The_straight_line_has_twelve_certified_digits_of_Norris()
    {
        var data = Data("Norris");
        var line = StraightLine.Through(data.ConvertAll(row => (row.X[0], row.Y)));
        var variance = line.Variance.ShouldNotBeNull();
        Digits.Agreeing(line.Intercept, Value("Norris", "B0", "certified_value")).ShouldBeGreaterThan(12);
        Digits.Agreeing(line.Slope, Value("Norris", "B1", "certified_value")).ShouldBeGreaterThan(12);
        Digits.Agreeing(Math.Sqrt(variance), Value("Norris", "residual_sd", "certified_value")).ShouldBeGreaterThan(12);
        Digits.Agreeing(line.RSquared, Value("Norris", "R2", "certified_value")).ShouldBeGreaterThan(12);
        Digits.Agreeing(Math.Sqrt(variance / line.SumXX), Value("Norris", "B1", "certified_sd")).ShouldBeGreaterThan(12);
        var ofIntercept = Math.Sqrt(variance * ((1.0 / line.Count) + (line.MeanX * line.MeanX / line.SumXX)));
        Digits.Agreeing(ofIntercept, Value("Norris", "B0", "certified_sd")).ShouldBeGreaterThan(12);
    }

    /// <summary>
    /// The reflections under the fits, with more columns than any model of ours has. Wampler4, Wampler5 and Filip are made so that double arithmetic cannot
    /// give nine digits of the parameters; what is reached there is held too.
    /// </summary>
    [Theory]
    [InlineData("Norris", 9)]
    [InlineData("Pontius", 9)]
    [InlineData("NoInt1", 9)]
    [InlineData("NoInt2", 9)]
    [InlineData("Wampler1", 9)]
    [InlineData("Wampler2", 9)]
    [InlineData("Wampler3", 9)]
    [InlineData("Wampler4", 7)]
    [InlineData("Wampler5", 5)]
    [InlineData("Longley", 9)]
    [InlineData("Filip", 7)]
    public void The_solver_has_the_certified_digits_of_linear_problems(string dataset, double leastDigits)
    {
        var parameters = Certified.Where(row => row["dataset"] == dataset && row["quantity"].StartsWith('B')).ToList();
        var data = Data(dataset);
        var problem = new Linear(data.ConvertAll(row => row.Y), data.ConvertAll(row => Columns(dataset, row.X, parameters.Count)));
        var solution = LevenbergMarquardt.Minimise(problem, Enumerable.Repeat(1.0, parameters.Count).ToArray(), 1_000);
        var variance = solution.SumOfSquares / (data.Count - parameters.Count);
        for (var i = 0; i < parameters.Count; i++)
        {
            var deviation = Math.Sqrt(variance * solution.Covariance[(i * parameters.Count) + i]);
            Digits.Agreeing(solution.Parameters[i], Number(parameters[i]["certified_value"])).ShouldBeGreaterThan(leastDigits, parameters[i]["quantity"]);
            Digits.Agreeing(deviation, Number(parameters[i]["certified_sd"])).ShouldBeGreaterThan(Math.Max(7, leastDigits), parameters[i]["quantity"]);
        }
    }

    private static double[] Columns(string dataset, double[] x, int count) => dataset switch
    {
        "NoInt1" or "NoInt2" => x,
        "Longley" => [1, .. x],
        _ => Enumerable.Range(0, count).Select(power => Enumerable.Repeat(x[0], power).Aggregate(1.0, (product, factor) => product * factor)).ToArray(),
    };

    private static List<(double Y, double[] X)> Data(string dataset) => ReferenceFile.Text("nist_strd_linear_data.csv").Split('\n')
        .Select(line => line.Trim().Split(',')).Where(cells => cells[0] == dataset)
        .Select(cells => (Number(cells[2]), cells.Skip(3).Where(cell => cell.Length > 0).Select(Number).ToArray())).ToList();

    private static double Value(string dataset, string quantity, string column) =>
        Number(Certified.Single(row => row["dataset"] == dataset && row["quantity"] == quantity)[column]);

    private static double Number(string text) => double.Parse(text, CultureInfo.InvariantCulture);

    private readonly struct Linear(List<double> y, List<double[]> columns) : ILeastSquaresProblem
    {
        public int Points => y.Count;

        public int Parameters => columns[0].Length;

        public void Evaluate(ReadOnlySpan<double> parameters, Span<double> residuals, Span<double> derivatives)
        {
            for (var i = 0; i < y.Count; i++)
            {
                var fitted = 0.0;
                for (var j = 0; j < parameters.Length; j++)
                {
                    fitted += parameters[j] * columns[i][j];
                    derivatives[(j * y.Count) + i] = columns[i][j];
                }

                residuals[i] = y[i] - fitted;
            }
        }
    }
}
