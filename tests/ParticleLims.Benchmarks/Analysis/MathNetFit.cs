using MathNet.Numerics.LinearAlgebra;
using MathNet.Numerics.Optimization;
using ParticleLims.Analysis.ModelFits;

namespace ParticleLims.Benchmarks.Analysis;

/// <summary>The same least squares with MathNet's minimiser: Q = 100 (1 - exp(-(x/x')^n)) with weights 1/u².</summary>
internal sealed class MathNetFit(IReadOnlyList<FitPoint> points, FittedModel start)
{
    private readonly Vector<double> _sizes = Vector<double>.Build.DenseOfEnumerable(points.Select(point => Math.Exp(point.LogSize)));
    private readonly Vector<double> _percent = Vector<double>.Build.DenseOfEnumerable(points.Select(point => point.Percent));
    private readonly Vector<double> _weights = Vector<double>.Build.DenseOfEnumerable(points.Select(point => 1 / (point.Uncertainty!.Value * point.Uncertainty.Value)));
    private readonly Vector<double> _start = Vector<double>.Build.Dense([start.SizeMicrometres, start.Slope]);

    public NonlinearMinimizationResult RosinRammler() =>
        new LevenbergMarquardtMinimizer().FindMinimum(ObjectiveFunction.NonlinearModel(Percent, Derivatives, _sizes, _percent, _weights), _start);

    private static Vector<double> Percent(Vector<double> parameters, Vector<double> sizes) =>
        sizes.Map(size => 100 * (1 - Math.Exp(-Math.Pow(size / parameters[0], parameters[1]))));

    private static Matrix<double> Derivatives(Vector<double> parameters, Vector<double> sizes)
    {
        var derivatives = Matrix<double>.Build.Dense(sizes.Count, 2);
        for (var i = 0; i < sizes.Count; i++)
        {
            var power = Math.Pow(sizes[i] / parameters[0], parameters[1]);
            var rise = 100 * Math.Exp(-power) * power;
            derivatives[i, 0] = -rise * parameters[1] / parameters[0];
            derivatives[i, 1] = rise * Math.Log(sizes[i] / parameters[0]);
        }

        return derivatives;
    }
}
