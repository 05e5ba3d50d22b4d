using System.Runtime.Intrinsics;
using CsCheck;
using ParticleLims.Analysis.Uncertainty.Trials;

namespace ParticleLims.Analysis.Tests.Uncertainty;

/// <summary>Against the platform's own functions (System.Math), which are another code.</summary>
public sealed class VectorFunctionTests
{
    [Fact]
    public void The_logarithm_agrees_to_fourteen_digits() =>
        Gen.Double[-300, 300].Select(power => Math.Pow(10, power)).Sample(x => Near(VectorFunctions.Log(Vector256.Create(x)), Math.Log(x), 1e-14));

    [Fact]
    public void The_logarithm_is_good_next_to_one() =>
        Gen.Double[-1e-3, 1e-3].Sample(x => Near(VectorFunctions.Log(Vector256.Create(1 + x)), Math.Log(1 + x), 1e-13));

    [Fact]
    public void The_exponential_agrees_to_fourteen_digits() =>
        Gen.Double[-700, 700].Sample(x => Near(VectorFunctions.Exp(Vector256.Create(x)), Math.Exp(x), 1e-14));

    [Fact]
    public void Sine_and_cosine_of_a_turn_agree() =>
        Gen.Double[0, 1].Sample(turn =>
        {
            var (sine, cosine) = VectorFunctions.OfTurn(Vector256.Create(turn));
            Math.Abs(sine[0] - Math.Sin(2 * Math.PI * turn)).ShouldBeLessThan(2e-15);
            Math.Abs(cosine[3] - Math.Cos(2 * Math.PI * turn)).ShouldBeLessThan(2e-15);
        });

    [Fact]
    public void The_quarters_of_a_turn_are_exact()
    {
        var (sine, cosine) = VectorFunctions.OfTurn(Vector256.Create(0, 0.25, 0.5, 0.75));
        sine.ShouldBe(Vector256.Create(0.0, 1, 0, -1));
        cosine.ShouldBe(Vector256.Create(1.0, 0, -1, 0));
    }

    private static void Near(Vector256<double> computed, double expected, double relative)
    {
        for (var lane = 0; lane < TrialRandom.Lanes; lane++)
        {
            Math.Abs(computed[lane] - expected).ShouldBeLessThanOrEqualTo(relative * Math.Max(Math.Abs(expected), 1e-3));
        }
    }
}
