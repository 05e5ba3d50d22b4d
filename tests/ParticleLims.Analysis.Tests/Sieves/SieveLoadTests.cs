using ParticleLims.Analysis.Quantities;
using ParticleLims.Analysis.Sieves;

namespace ParticleLims.Analysis.Tests.Sieves;

/// <summary>Against rules_and_limits.csv: ASTM C136/C136M, 7 kg/m² on sieves finer than 4.75 mm, which is 200 g on 8 inches and 469 g on 12 inches.</summary>
public sealed class SieveLoadTests
{
    [Theory]
    [InlineData(203, 200)]
    [InlineData(305, 469)]
    public void A_fine_sieve_carries_the_published_grams(int frame, int grams) =>
        ((double)SieveLoad.Most(Aperture.FromMicrometres(75m), frame).Grams).ShouldBe(grams, 1);

    [Fact]
    public void From_four_and_three_quarter_millimetres_on_the_load_grows_with_the_aperture()
    {
        var area = SieveLoad.Most(Aperture.FromMicrometres(75m), 305).Grams / 7_000m;
        ((double)SieveLoad.Most(Aperture.FromMicrometres(4_750m), 305).Grams).ShouldBe((double)(2.5m * 4.75m * area * 1_000m), 0.01);
        ((double)SieveLoad.Most(Aperture.FromMicrometres(25_000m), 305).Grams).ShouldBe((double)(2.5m * 25m * area * 1_000m), 0.01);
        SieveLoad.Most(Aperture.FromMicrometres(4_749m), 305).ShouldBe(SieveLoad.Most(Aperture.FromMicrometres(20m), 305));
    }

    [Theory]
    [InlineData(49)]
    [InlineData(1_001)]
    public void A_frame_that_no_sieve_has_is_an_exception(int frame) =>
        Should.Throw<ArgumentOutOfRangeException>(() => SieveLoad.Most(Aperture.FromMicrometres(75m), frame));
}
