using System.Globalization;
using CsCheck;
using ParticleLims.Analysis.Statistics.Outliers;
using ParticleLims.Analysis.Tests.ReferenceData;

namespace ParticleLims.Analysis.Tests.Statistics.Outliers;

/// <summary>Against the published tables in grubbs_critical.csv, whose first lines name them and their slips.</summary>
public sealed class GrubbsTestTests
{
    /// <summary>NIST/SEMATECH e-Handbook 1.3.5.17.1, mass spectrometer: G = 2.4688, critical value 2.032 one-sided at 5 %.</summary>
    private static readonly double[] Spectrometer = [199.31, 199.53, 200.19, 200.82, 201.92, 201.95, 202.18, 245.57];

    [Fact]
    public void The_example_of_the_handbook_is_met()
    {
        var found = GrubbsTest.One(Spectrometer, 0.05, OutlierSide.Highest).ShouldNotBeNull();
        found.Statistic.ShouldBe(2.468765, 1e-6);
        Math.Round(found.Critical, 3).ShouldBe(2.032);
        found.IsOutlier.ShouldBeTrue();
        found.Suspects.ShouldBe([7]);
        GrubbsTest.One(Spectrometer, 0.05, OutlierSide.Either)!.Critical.ShouldBe(2.126645, 1e-6);
        GrubbsTest.One(Spectrometer, 0.05, OutlierSide.Lowest)!.IsOutlier.ShouldBeFalse();
    }

    /// <summary>Four decimals computed with SciPy from the same formula.</summary>
    [Fact]
    public void Every_critical_value_has_the_four_decimals_computed_elsewhere()
    {
        foreach (var row in ReferenceFile.Rows("grubbs_critical.csv"))
        {
            var n = (int)row.Number("n");
            foreach (var (column, alpha) in new[] { ("calc1_0.10", 0.10), ("calc1_0.05", 0.05), ("calc1_0.025", 0.025), ("calc1_0.01", 0.01) })
            {
                GrubbsTest.CriticalValue(n, alpha, OutlierSide.Highest).ShouldBe((double)row.Number(column), 5.1e-5, $"{n} {column}");
            }

            GrubbsTest.CriticalValue(n, 0.05, OutlierSide.Either).ShouldBe((double)row.Number("calc2_0.05"), 5.1e-5);
            GrubbsTest.CriticalValue(n, 0.01, OutlierSide.Either).ShouldBe((double)row.Number("calc2_0.01"), 5.1e-5);
        }
    }

    /// <summary>
    /// The published one-sided table has two decimals, and some entries of it are cut or one off: 0.012. The two-sided one has three; its n = 7 at 5 % (2.202, right 2.020) and n = 15 at 1 %
    /// (2.755, right 2.806) are slips.
    /// </summary>
    [Fact]
    public void The_published_tables_are_met_but_for_their_slips()
    {
        foreach (var row in ReferenceFile.Rows("grubbs_critical.csv"))
        {
            var n = (int)row.Number("n");
            foreach (var (column, alpha) in new[] { ("pub1_0.10", 0.10), ("pub1_0.075", 0.075), ("pub1_0.05", 0.05), ("pub1_0.025", 0.025), ("pub1_0.01", 0.01) }.Where(pair => row.Has(pair.Item1)))
            {
                GrubbsTest.CriticalValue(n, alpha, OutlierSide.Lowest).ShouldBe((double)row.Number(column), 0.012, $"{n} {column}");
            }

            foreach (var (column, alpha) in new[] { ("pub2_0.05", 0.05), ("pub2_0.01", 0.01) }.Where(pair => row.Has(pair.Item1) && (n, pair.Item1) is not ((7, "pub2_0.05") or (15, "pub2_0.01"))))
            {
                GrubbsTest.CriticalValue(n, alpha, OutlierSide.Either).ShouldBe((double)row.Number(column), 0.0012, $"{n} {column}");
            }
        }
    }

    /// <summary>The table for two outliers is simulated; ISO 5725-2 table 5, as remembered, agrees within 0.0007.</summary>
    [Fact]
    public void The_table_for_two_is_the_simulated_one_and_meets_that_of_the_standard()
    {
        foreach (var row in ReferenceFile.Rows("grubbs_pair_critical.csv"))
        {
            var n = (int)row.Number("n");
            GrubbsPairTable.CriticalValue(n, 0.01, OutlierSide.Either).ShouldBe((double)row.Number("sim_0.005"), 6e-5);
            GrubbsPairTable.CriticalValue(n, 0.01, OutlierSide.Highest).ShouldBe((double)row.Number("sim_0.01"), 6e-5);
            GrubbsPairTable.CriticalValue(n, 0.05, OutlierSide.Either).ShouldBe((double)row.Number("sim_0.025"), 6e-5);
            GrubbsPairTable.CriticalValue(n, 0.05, OutlierSide.Lowest).ShouldBe((double)row.Number("sim_0.05"), 6e-5);
            if (row.Has("iso_0.01"))
            {
                GrubbsPairTable.CriticalValue(n, 0.01, OutlierSide.Either).ShouldBe((double)row.Number("iso_0.01"), 7e-4, n.ToString(CultureInfo.InvariantCulture));
                GrubbsPairTable.CriticalValue(n, 0.05, OutlierSide.Either).ShouldBe((double)row.Number("iso_0.05"), 7e-4, n.ToString(CultureInfo.InvariantCulture));
            }
        }
    }

    [Fact]
    public void Two_far_values_hide_each_other_from_the_single_test_and_not_from_that_for_two()
    {
        double[] values = [10.1, 10.2, 10.3, 10.2, 10.1, 10.25, 13.0, 13.1];
        GrubbsTest.One(values, 0.05, OutlierSide.Either)!.IsOutlier.ShouldBeFalse();
        var pair = GrubbsTest.Two(values, 0.05, OutlierSide.Either).ShouldNotBeNull();
        pair.IsOutlier.ShouldBeTrue();
        pair.Suspects.ShouldBe([6, 7], ignoreOrder: true);
        GrubbsTest.Two(values, 0.05, OutlierSide.Lowest)!.IsOutlier.ShouldBeFalse();
    }

    /// <summary>Of clean normal values each test condemns alpha: 5 % ± four standard errors of 20 000 draws.</summary>
    [Fact]
    public void Clean_values_are_condemned_as_often_as_alpha_says()
    {
        var random = new Normals(7);
        int one = 0, two = 0, dixon = 0;
        const int Draws = 20_000;
        for (var i = 0; i < Draws; i++)
        {
            var values = Enumerable.Range(0, 8).Select(_ => random.Next()).ToArray();
            one += GrubbsTest.One(values, 0.05, OutlierSide.Either)!.IsOutlier ? 1 : 0;
            two += GrubbsTest.Two(values, 0.05, OutlierSide.Either)!.IsOutlier ? 1 : 0;
            dixon += DixonTest.Of(values, 0.05)!.IsOutlier ? 1 : 0;
        }

        ((double)one / Draws).ShouldBe(0.05, 0.006);
        ((double)two / Draws).ShouldBe(0.05, 0.006);
        ((double)dixon / Draws).ShouldBe(0.05, 0.006);
    }

    [Fact]
    public void Shift_scale_and_order_do_not_matter() =>
        Gen.Int[-10_000, 10_000].Select(thousandths => thousandths / 1000.0).Array[5, 20].Where(values => values.Distinct().Count() == values.Length).Select(Gen.Double[-100, 100], Gen.Double[0.1, 10]).Sample(drawn =>
        {
            var (values, shift, scale) = drawn;
            var moved = values.Reverse().Select(value => (value * scale) + shift).ToArray();
            GrubbsTest.One(moved, 0.05, OutlierSide.Either)!.Statistic.ShouldBe(GrubbsTest.One(values, 0.05, OutlierSide.Either)!.Statistic, 1e-9);
            GrubbsTest.Two(moved, 0.05, OutlierSide.Either)!.Statistic.ShouldBe(GrubbsTest.Two(values, 0.05, OutlierSide.Either)!.Statistic, 1e-9);
            DixonTest.Of(moved, 0.05)!.Statistic.ShouldBe(DixonTest.Of(values, 0.05)!.Statistic, 1e-9);
        });

    [Fact]
    public void Equal_values_hold_no_outlier()
    {
        GrubbsTest.One([2, 2, 2], 0.05, OutlierSide.Either).ShouldBeNull();
        GrubbsTest.Two([2, 2, 2, 2], 0.05, OutlierSide.Either).ShouldBeNull();
        DixonTest.Of([2, 2, 2], 0.05).ShouldBeNull();
    }

    [Fact]
    public void What_the_tables_do_not_have_is_refused()
    {
        Should.Throw<ArgumentException>(() => GrubbsTest.One([1, 2], 0.05, OutlierSide.Either));
        Should.Throw<ArgumentException>(() => GrubbsTest.One([1, 2, 3], 1, OutlierSide.Either));
        Should.Throw<ArgumentException>(() => GrubbsTest.Two(Enumerable.Range(0, 31).Select(i => (double)i).ToList(), 0.05, OutlierSide.Either));
        Should.Throw<ArgumentException>(() => DixonTest.Of([1, 2, 3], 0.025));
    }
}
