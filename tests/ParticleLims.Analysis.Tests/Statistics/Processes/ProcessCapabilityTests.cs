using ParticleLims.Analysis.Statistics.Processes;
using ParticleLims.Analysis.Tests.ReferenceData;

namespace ParticleLims.Analysis.Tests.Statistics.Processes;

public sealed class ProcessCapabilityTests
{
    private static readonly CapabilityLimits EightToTwenty = new() { Lower = 8, Upper = 20 };

    /// <summary>NIST/SEMATECH e-Handbook 6.1.6: limits 8 and 20, mean 16, s 2: Cp 1.0, Cpk 0.6667, Cpl 1.3333.</summary>
    [Fact]
    public void The_example_of_the_handbook_is_met()
    {
        var capability = ProcessCapability.Of(16, 2, 50, 49, EightToTwenty);
        capability.Potential!.Value.ShouldBe((double)Published("USL 20, LSL 8, mean 16, s 2: Cp"));
        Math.Round(capability.Actual!.Value, 4).ShouldBe((double)Published("Cpk = Cpu"));
        Math.Round(capability.FromLower!.Value, 4).ShouldBe((double)Published("Cpl"));
    }

    /// <summary>AIAG and VDA, SPC manual, figure 7-6, as publicly quoted: a roundness with zero as nature's limit.</summary>
    [Theory]
    [InlineData("AIAGVDA_7_6a", 0.166, 0.0457)]
    [InlineData("AIAGVDA_7_6b", 0.25, 0.0292)]
    public void A_limit_of_nature_counts_for_the_width_alone(string example, double mean, double deviation)
    {
        var capability = ProcessCapability.Of(mean, deviation, 100, 99, new CapabilityLimits { Lower = 0, IsLowerNatural = true, Upper = 0.40 });
        var rows = ReferenceFile.Rows("spc_examples.csv").Where(row => row["example"] == example).ToList();
        capability.Potential!.Value.ShouldBe((double)rows[0].Number("published"), 0.0051);
        capability.Actual!.Value.ShouldBe((double)rows[1].Number("published"), 0.0051);
        capability.FromLower.ShouldBeNull();
    }

    /// <summary>Bissell (1990): Cpk ± 1.96 √(1/(9 n) + Cpk²/(2 (n - 1))); for Cpk 0.6667 and n = 50 by hand 0.6667 ± 0.1613.</summary>
    [Fact]
    public void The_interval_of_Cpk_is_Bissells()
    {
        var actual = ProcessCapability.Of(16, 2, 50, 49, EightToTwenty).Actual!;
        actual.Interval.High.ShouldBe(0.6667 + 0.1613, 1e-3);
        actual.Interval.Low.ShouldBe(0.6667 - 0.1613, 1e-3);
    }

    /// <summary>qchisq(c(0.025, 0.975), 9) of R 4.2: 2.70039, 19.02277.</summary>
    [Fact]
    public void The_interval_of_Cp_is_by_chi_square()
    {
        var potential = ProcessCapability.Of(14, 2, 10, 9, EightToTwenty).Potential!;
        potential.Interval.Low.ShouldBe(Math.Sqrt(2.70038949998036 / 9), 1e-12);
        potential.Interval.High.ShouldBe(Math.Sqrt(19.0227677986416 / 9), 1e-12);
    }

    /// <summary>Of 4 000 samples of 50 from a process with known indices 95 % of the intervals hold them, within 2 %.</summary>
    [Fact]
    public void The_intervals_hold_the_true_index_as_often_as_they_say()
    {
        var random = new Normals(11);
        int potential = 0, actual = 0;
        const int Samples = 4_000;
        for (var i = 0; i < Samples; i++)
        {
            var capability = ProcessCapability.Of(Enumerable.Range(0, 50).Select(_ => 16 + (2 * random.Next())).ToList(), EightToTwenty);
            potential += capability.Potential!.Interval.Contains(1) ? 1 : 0;
            actual += capability.Actual!.Interval.Contains(2.0 / 3) ? 1 : 0;
        }

        ((double)potential / Samples).ShouldBe(0.95, 0.015);
        ((double)actual / Samples).ShouldBe(0.95, 0.02);
    }

    [Fact]
    public void A_single_limit_has_no_width()
    {
        var capability = ProcessCapability.Of(16, 2, 50, 49, new CapabilityLimits { Upper = 20 });
        capability.Potential.ShouldBeNull();
        capability.Actual!.Value.ShouldBe(4 / 6.0, 1e-15);
        ProcessCapability.Of(16, 2, 50, 49, new CapabilityLimits { Lower = 0, IsLowerNatural = true }).Actual.ShouldBeNull();
    }

    [Fact]
    public void Impossible_limits_and_values_without_scatter_are_refused()
    {
        Should.Throw<ArgumentException>(() => ProcessCapability.Of(1, 1, 10, 9, new CapabilityLimits()));
        Should.Throw<ArgumentException>(() => ProcessCapability.Of(1, 1, 10, 9, new CapabilityLimits { Lower = 2, Upper = 2 }));
        Should.Throw<ArgumentException>(() => ProcessCapability.Of([1, 1, 1], EightToTwenty));
    }

    private static decimal Published(string quantity) => ReferenceFile.Rows("spc_examples.csv").Single(row => row["example"] == "NIST_616_Cpk" && row["quantity"] == quantity).Number("published");
}
