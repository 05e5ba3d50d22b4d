using ParticleLims.Analysis.Balances;
using ParticleLims.Analysis.Quantities;
using ParticleLims.Analysis.Tests.ReferenceData;

namespace ParticleLims.Analysis.Tests.Balances;

public sealed class BalanceTests
{
    /// <summary>USP &lt;41&gt; (rules_and_limits.csv): m_min = 2000 max(s, 0.41 d), never below 820 d.</summary>
    [Theory]
    [InlineData(100, 100, 200_000)]
    [InlineData(0, 100, 82_000)]
    [InlineData(41, 100, 82_000)]
    [InlineData(42, 100, 84_000)]
    [InlineData(1_200, 1_000, 2_400_000)]
    public void The_smallest_mass_is_that_of_the_pharmacopoeia(long repeatability, long readability, long smallest)
    {
        ReferenceFile.Rows("rules_and_limits.csv").Single(row => row["document"] == "USP <41>")["rule"].ShouldContain("m_min = 2000*max(s,0.41 d), smallest possible 820 d");
        MinimumWeight.Of(Mass.FromMicrograms(repeatability), Mass.FromMicrograms(readability)).Micrograms.ShouldBe(smallest);
    }

    [Fact]
    public void A_balance_without_a_last_digit_is_refused()
    {
        Should.Throw<ArgumentOutOfRangeException>(() => MinimumWeight.Of(Mass.Zero, Mass.Zero));
        Should.Throw<ArgumentOutOfRangeException>(() => MinimumWeight.Of(Mass.FromMicrograms(-1), Mass.FromMicrograms(1)));
    }

    /// <summary>OIML R 111-1:2004, table 1, as publicly quoted (oiml_r111.csv).</summary>
    [Fact]
    public void Every_permissible_error_is_that_of_the_recommendation()
    {
        var rows = ReferenceFile.Rows("oiml_r111.csv");
        WeightTolerances.Nominals.Length.ShouldBe(rows.Count);
        foreach (var row in rows)
        {
            foreach (var weightClass in Enum.GetValues<WeightClass>())
            {
                WeightTolerances.Of(Mass.FromGrams(row.Number("nominal_g")), weightClass).ShouldBe(Mass.FromGrams(row.Number(weightClass.ToString()) / 1000m), row["nominal"]);
            }
        }
    }

    [Fact]
    public void The_finer_class_is_never_the_wider_one()
    {
        foreach (var nominal in WeightTolerances.Nominals)
        {
            var errors = Enum.GetValues<WeightClass>().Select(weightClass => WeightTolerances.Of(nominal, weightClass)!.Value).ToList();
            errors.ShouldBe(errors.Order());
        }
    }

    [Fact]
    public void A_mass_without_a_row_has_no_permissible_error() => WeightTolerances.Of(Mass.FromGrams(3m), WeightClass.E2).ShouldBeNull();
}
