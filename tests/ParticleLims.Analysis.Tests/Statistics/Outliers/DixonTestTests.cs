using ParticleLims.Analysis.Statistics.Outliers;
using ParticleLims.Analysis.Tests.ReferenceData;

namespace ParticleLims.Analysis.Tests.Statistics.Outliers;

public sealed class DixonTestTests
{
    /// <summary>
    /// Rorabacher, Analytical Chemistry 63 (1991) 139, table 1, as publicly quoted (dixon_q_critical.csv). Two entries of the quotation do not fit the simulation beside them and are replaced by
    /// it: n = 30 at 95 % (quoted 0.290) and n = 4 at 99 % (quoted 0.926). All lie within 0.004 of the simulation.
    /// </summary>
    [Fact]
    public void The_table_is_the_published_one_but_for_two_slips()
    {
        foreach (var row in ReferenceFile.Rows("dixon_q_critical.csv"))
        {
            var n = (int)row.Number("n");
            foreach (var (alpha, published, simulated) in new[] { (0.10, "q90", "mc_q90"), (0.05, "q95", "mc_q95"), (0.01, "q99", "mc_q99") })
            {
                var critical = DixonTest.CriticalValue(n, alpha);
                critical.ShouldBe((double)row.Number(simulated), 0.004);
                if ((n, alpha) is not ((30, 0.05) or (4, 0.01)))
                {
                    critical.ShouldBe((double)row.Number(published), $"{n} {published}");
                }
            }
        }
    }

    /// <summary>Dean and Dixon, Analytical Chemistry 23 (1951) 636, from memory: 40.02, 40.12, 40.16, 40.18, 40.18, 40.20 give Q = 0.10/0.18 = 0.556, not enough against 0.560 at 90 %.</summary>
    [Fact]
    public void The_first_example_keeps_its_low_value()
    {
        var found = DixonTest.Of([40.12, 40.02, 40.16, 40.18, 40.18, 40.20], 0.10).ShouldNotBeNull();
        found.Statistic.ShouldBe(0.10 / 0.18, 1e-9);
        found.Critical.ShouldBe(0.560);
        found.Suspects.ShouldBe([1]);
        found.IsOutlier.ShouldBeFalse();
    }
}
