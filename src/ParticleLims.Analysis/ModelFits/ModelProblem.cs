using System.Runtime.Intrinsics;
using ParticleLims.Analysis.Distributions.Functions;
using ParticleLims.Analysis.Distributions.Rules;

namespace ParticleLims.Analysis.ModelFits;

/// <summary>
/// A model's percentages as a problem of least squares. The parameters are ln position and ln slope less those of the straight line, plus one: so they begin at one, and a step of one is a factor
/// of e. The points stand in columns of fours, the last four filled up.
/// </summary>
internal readonly struct ModelProblem : ILeastSquaresProblem
{
    private const double Farthest = 100;
    private const double Whole = 100;

    private readonly Net _net;
    private readonly double[] _points;
    private readonly int _rising;
    private readonly double _logSize;
    private readonly double _logSlope;

    public ModelProblem(Net net, IReadOnlyList<FitPoint> points, double logSize, double logSlope)
        : this(net, Columns(points), points.Count, points.Count, logSize, logSlope)
    {
    }

    private ModelProblem(Net net, double[] columns, int points, int rising, double logSize, double logSlope) =>
        (_net, _points, Points, _rising, _logSize, _logSlope) = (net, columns, points, rising, logSize, logSlope);

    public int Points { get; }

    public int Parameters => 2;

    private ReadOnlySpan<double> LogSizes => Column(0);

    private ReadOnlySpan<double> Percents => Column(1);

    private ReadOnlySpan<double> Uncertainties => Column(2);

    public (double LogSize, double LogSlope) At(ReadOnlySpan<double> parameters) => (_logSize + parameters[0] - 1, _logSlope + parameters[1] - 1);

    /// <summary>The same with another net, and only so many points, the finest, below the top size.</summary>
    public ModelProblem With(Net other, int below) => new(other, _points, Points, below, _logSize, _logSlope);

    /// <summary>The part of the sum of squares that the level points make: the sum is no less, for it begins with the others, and a sum that began higher is rounded no lower.</summary>
    public double SumOfLevel(int rising)
    {
        var sum = 0.0;
        for (var i = rising; i < Points; i++)
        {
            var residual = (Percents[i] - Whole) / Uncertainties[i];
            sum += residual * residual;
        }

        return sum;
    }

    public void Evaluate(ReadOnlySpan<double> parameters, Span<double> residuals, Span<double> derivatives)
    {
        var (position, shape) = At(parameters);
        if (!(Math.Abs(shape) < Farthest && Math.Abs(position) < 2 * Farthest))
        {
            residuals.Fill(double.NaN);
            return;
        }

        var (slope, room) = (Exponential.Of(shape), LogSizes.Length);
        Span<double> ordinates = stackalloc double[room];
        Span<double> percents = stackalloc double[room];
        Span<double> rises = stackalloc double[room];
        for (var at = 0; at < room; at += Vector256<double>.Count)
        {
            ((Vector256.Create(LogSizes[at..]) - Vector256.Create(position)) * slope).CopyTo(ordinates[at..]);
        }

        ordinates[_rising..].Clear();
        _net.Percents(ordinates, percents, rises);
        percents[_rising..].Fill(Whole);
        rises[_rising..].Clear();
        Compare(slope, ordinates, percents, rises);
        percents[..Points].CopyTo(residuals);
        rises[..Points].CopyTo(derivatives);
        ordinates[..Points].CopyTo(derivatives[Points..]);
    }

    /// <summary>Turns percentages into residuals, rises into the derivatives by the position, and ordinates into those by the slope.</summary>
    private void Compare(double slope, Span<double> ordinates, Span<double> percents, Span<double> rises)
    {
        for (var at = 0; at < ordinates.Length; at += Vector256<double>.Count)
        {
            var (u, rise) = (Vector256.Create(Uncertainties[at..]), Vector256.Create<double>(rises[at..]));
            ((Vector256.Create(Percents[at..]) - Vector256.Create<double>(percents[at..])) / u).CopyTo(percents[at..]);
            (rise * -slope / u).CopyTo(rises[at..]);
            (Vector256.Create<double>(ordinates[at..]) * rise / u).CopyTo(ordinates[at..]);
        }
    }

    private ReadOnlySpan<double> Column(int column) => _points.AsSpan(column * (_points.Length / 3), _points.Length / 3);

    private static double[] Columns(IReadOnlyList<FitPoint> points)
    {
        var room = Net.InFours(points.Count);
        var columns = new double[3 * room];
        columns.AsSpan(2 * room).Fill(1);
        for (var i = 0; i < points.Count; i++)
        {
            var point = points[i];
            (columns[i], columns[room + i], columns[(2 * room) + i]) = (point.LogSize, point.Percent, point.Uncertainty ?? 1);
        }

        return columns;
    }
}
