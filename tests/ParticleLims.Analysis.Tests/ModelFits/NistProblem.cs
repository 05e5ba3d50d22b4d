using ParticleLims.Analysis.ModelFits;

namespace ParticleLims.Analysis.Tests.ModelFits;

/// <summary>A published regression as the engine's solver takes it.</summary>
internal readonly struct NistProblem(IReadOnlyList<(double Y, double X1, double X2)> data, int parameters, Func<double, double, Dual[], Dual> model) : ILeastSquaresProblem
{
    public int Points => data.Count;

    public int Parameters => parameters;

    public void Evaluate(ReadOnlySpan<double> parameters, Span<double> residuals, Span<double> derivatives)
    {
        var duals = new Dual[parameters.Length];
        for (var j = 0; j < duals.Length; j++)
        {
            duals[j] = Dual.Parameter(parameters[j], j, duals.Length);
        }

        for (var i = 0; i < data.Count; i++)
        {
            var value = model(data[i].X1, data[i].X2, duals);
            residuals[i] = data[i].Y - value.Value;
            for (var j = 0; j < duals.Length; j++)
            {
                derivatives[(j * data.Count) + i] = value.Slopes[j];
            }
        }
    }
}
