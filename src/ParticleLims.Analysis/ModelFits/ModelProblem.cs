using System.Runtime.InteropServices;
using System.Runtime.Intrinsics;
using ParticleLims.Analysis.Distributions.Functions;
using ParticleLims.Analysis.Distributions.Rules;

namespace ParticleLims.Analysis.ModelFits;

/// <summary>
/// A model's percentages as a problem of least squares. The parameters are ln position and ln slope less those of the straight line, plus one: so they begin at one, and a step of one is a factor
/// of e. The points stand in columns of fours, the last four filled up; beside them stands the room to work in, so a problem
/// is not for two threads.
/// </summary>
internal readonly struct ModelProblem : ILeastSquaresProblem
{
    private const double Farthest = 100;
    private const double Whole = 100;

    // The columns: what is given, and what is computed at each place.
    private const int LogSizes = 0;
    private const int Percents = 1;
    private const int Uncertainties = 2;
    private const int Ordinates = 3;
    private const int Fitted = 4;
    private const int Rises = 5;
    private const int Columns = 6;

    private readonly Net _net;
    private readonly Vector256<double>[] _columns;
    private readonly int _room;
    private readonly int _rising;
    private readonly double _logSize;
    private readonly double _logSlope;

    public ModelProblem(Net net, IReadOnlyList<FitPoint> points, double logSize, double logSlope)
        : this(net, InColumns(points), points.Count, points.Count, logSize, logSlope)
    {
    }

    private ModelProblem(Net net, Vector256<double>[] columns, int points, int rising, double logSize, double logSlope) =>
        (_net, _columns, _room, Points, _rising, _logSize, _logSlope) = (net, columns, columns.Length / Columns, points, rising, logSize, logSlope);

    public int Points { get; }

    public int Parameters => 2;

    public (double LogSize, double LogSlope) At(ReadOnlySpan<double> parameters) => (_logSize + parameters[0] - 1, _logSlope + parameters[1] - 1);

    /// <summary>The same with another net, and only so many points, the finest, below the top size.</summary>
    public ModelProblem With(Net other, int below) => new(other, _columns, Points, below, _logSize, _logSlope);

    /// <summary>The part of the sum of squares that the level points make: the sum is no less, for it begins with the others, and a sum that began higher is rounded no lower.</summary>
    public double SumOfLevel(int rising)
    {
        var sum = 0.0;
        for (var i = rising; i < Points; i++)
        {
            var residual = (Numbers(Percents)[i] - Whole) / Numbers(Uncertainties)[i];
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

        var slope = Exponential.Of(shape);
        var sizes = Column(LogSizes);
        var ordinates = Column(Ordinates);
        for (var i = 0; i < ordinates.Length; i++)
        {
            ordinates[i] = (sizes[i] - Vector256.Create(position)) * slope;
        }

        Numbers(Ordinates)[_rising..].Clear();
        _net.Percents(ordinates, Column(Fitted), Column(Rises));
        Numbers(Fitted)[_rising..].Fill(Whole);
        Numbers(Rises)[_rising..].Clear();
        Compare(slope);
        Numbers(Fitted)[..Points].CopyTo(residuals);
        Numbers(Rises)[..Points].CopyTo(derivatives);
        Numbers(Ordinates)[..Points].CopyTo(derivatives[Points..]);
    }

    /// <summary>Turns the fitted percentages into residuals, rises into the derivatives by the position, and ordinates into those by the slope.</summary>
    private void Compare(double slope)
    {
        var count = _room;
        var all = _columns.AsSpan();
        for (var i = 0; i < count; i++)
        {
            var (u, rise) = (all[(Uncertainties * count) + i], all[(Rises * count) + i]);
            all[(Fitted * count) + i] = (all[(Percents * count) + i] - all[(Fitted * count) + i]) / u;
            all[(Rises * count) + i] = rise * -slope / u;
            all[(Ordinates * count) + i] = all[(Ordinates * count) + i] * rise / u;
        }
    }

    private Span<Vector256<double>> Column(int column) => _columns.AsSpan(column * _room, _room);

    private Span<double> Numbers(int column) => MemoryMarshal.Cast<Vector256<double>, double>(Column(column));

    private static Vector256<double>[] InColumns(IReadOnlyList<FitPoint> points)
    {
        var room = Net.Fours(points.Count);
        var columns = new Vector256<double>[Columns * room];
        columns.AsSpan(Uncertainties * room, room).Fill(Vector256<double>.One);
        var numbers = MemoryMarshal.Cast<Vector256<double>, double>(columns.AsSpan());
        var row = room * Vector256<double>.Count;
        for (var i = 0; i < points.Count; i++)
        {
            var point = points[i];
            (numbers[(LogSizes * row) + i], numbers[(Percents * row) + i], numbers[(Uncertainties * row) + i]) = (point.LogSize, point.Percent, point.Uncertainty ?? 1);
        }

        return columns;
    }
}
