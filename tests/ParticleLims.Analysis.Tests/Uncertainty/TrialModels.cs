using ParticleLims.Analysis.Uncertainty.Trials;

namespace ParticleLims.Analysis.Tests.Uncertainty;

/// <summary>The models of the examples in JCGM 101:2008, clause 9.</summary>
internal static class TrialModels
{
    /// <summary>9.2: Y = X1 + X2 + X3 + X4, each about zero.</summary>
    public sealed class Sum(bool rectangular, params double[] standardUncertainties) : ITrialModel
    {
        public int Outputs => 1;

        public int Columns => 0;

        public void Run(ref TrialRandom random, Span<double> workspace, Span<double> outputs)
        {
            outputs.Clear();
            foreach (var u in standardUncertainties)
            {
                if (rectangular)
                {
                    TrialColumn.AddRectangular(outputs, u, ref random);
                }
                else
                {
                    TrialColumn.AddNormal(outputs, u, ref random);
                }
            }
        }
    }

    /// <summary>9.4: comparison loss Y = X1² + X2², both with u = 0.005, X2 about zero.</summary>
    public sealed class ComparisonLoss(double x1) : ITrialModel
    {
        public int Outputs => 1;

        public int Columns => 2;

        public void Run(ref TrialRandom random, Span<double> workspace, Span<double> outputs)
        {
            workspace.Clear();
            var (first, second) = (workspace[..TrialColumn.Length].ToArray(), workspace[TrialColumn.Length..].ToArray());
            TrialColumn.AddNormal(first, 0.005, ref random);
            TrialColumn.AddNormal(second, 0.005, ref random);
            for (var i = 0; i < outputs.Length; i++)
            {
                outputs[i] = ((x1 + first[i]) * (x1 + first[i])) + (second[i] * second[i]);
            }
        }
    }
}
