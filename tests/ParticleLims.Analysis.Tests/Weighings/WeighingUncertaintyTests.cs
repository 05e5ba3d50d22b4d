using ParticleLims.Analysis.Quantities;
using ParticleLims.Analysis.Weighings;

namespace ParticleLims.Analysis.Tests.Weighings;

public sealed class WeighingUncertaintyTests
{
    /// <summary>docs/science/weighing-uncertainty.md, worked number: sqrt(2² + 1²/12 + 3²/3) mg = 2.66145 mg.</summary>
    [Fact]
    public void Repeatability_readability_and_linearity_add_in_squares() =>
        WeighingUncertainty.Of(Mass.FromGrams(0.002m), Mass.FromGrams(0.001m), Mass.FromGrams(0.003m)).Micrograms.ShouldBe(2662);

    [Fact]
    public void A_balance_known_by_its_readability_alone_has_a_rectangle() =>
        WeighingUncertainty.Of(Mass.Zero, Mass.FromGrams(0.001m), Mass.Zero).Micrograms.ShouldBe(289);

    [Fact]
    public void A_negative_term_is_refused() =>
        Should.Throw<ArgumentOutOfRangeException>(() => WeighingUncertainty.Of(Mass.FromGrams(-0.001m), Mass.Zero, Mass.Zero));
}
