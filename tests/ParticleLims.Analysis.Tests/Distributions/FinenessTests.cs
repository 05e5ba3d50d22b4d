using ParticleLims.Analysis.Distributions;
using ParticleLims.Analysis.Quantities;
using ParticleLims.Analysis.Tests.ReferenceData;

namespace ParticleLims.Analysis.Tests.Distributions;

public sealed class FinenessTests
{
    /// <summary>
    /// United States Pharmacopeia chapter 811, table: coarse and moderately fine were read in a public copy, fine and very fine are from memory
    /// (rules_and_limits.csv, "how read").
    /// </summary>
    [Theory]
    [InlineData(355, 49.9, FinenessClass.Coarse)]
    [InlineData(355, 50, FinenessClass.ModeratelyFine)]
    [InlineData(180, 49.9, FinenessClass.ModeratelyFine)]
    [InlineData(180, 50, FinenessClass.Fine)]
    [InlineData(125, 49.9, FinenessClass.Fine)]
    [InlineData(125, 50, FinenessClass.VeryFine)]
    public void The_median_decides_the_class_and_half_passing_belongs_to_the_finer_one(int aperture, double percent, FinenessClass expected) =>
        Class((aperture - 1, 10m), (aperture, (decimal)percent), (aperture + 1, 90m)).ShouldBe(expected);

    [Fact]
    public void The_table_of_the_pharmacopoeia_stands_in_the_reference()
    {
        var rule = ReferenceFile.Rows("rules_and_limits.csv").Single(row => row["document"].StartsWith("USP <811> / Ph. Eur.", StringComparison.Ordinal))["rule"];
        rule.ShouldContain("coarse x50>355 um, Q3(355)<0.50; moderately fine 180-355, Q3(180)<0.50 and Q3(355)>=0.50");
        rule.ShouldContain("fine 125-180, Q3(125)<0.50 and Q3(180)>=0.50; very fine <=125, Q3(125)>=0.50");
    }

    [Fact]
    public void A_median_outside_the_apertures_is_classed_only_where_it_can_be()
    {
        Class((125m, 60m), (180m, 90m)).ShouldBe(FinenessClass.VeryFine);
        Class((126m, 60m), (180m, 90m)).ShouldBeNull();
        Class((250m, 10m), (355m, 40m)).ShouldBe(FinenessClass.Coarse);
        Class((250m, 10m), (354m, 40m)).ShouldBeNull();
    }

    /// <summary>worked_sieve_examples.csv, FM_500g: cumulative 10, 115, 252, 427, 490 and 495 g of 500 g add up to 357.8 %. The page takes for granted that all passes 9.5 mm.</summary>
    [Fact]
    public void The_published_fineness_modulus_is_3_578()
    {
        var modulus = WorkedSieveExamples.Evaluate("FM_500g", Interpolation.LogLinear).Summary!.FinenessModulus.ShouldNotBeNull();
        modulus.Value.ShouldBe(Ratio.FromDecimal(3.578m));
        modulus.Relation.ShouldBe(Relation.Above);
        ReferenceFile.Rows("worked_sieve_results.csv").Single(row => row["kind"] == "fineness modulus")["note"].ShouldContain("FM = 3.578");
    }

    /// <summary>REFERENCES.md: a published example counts 25 % on 0.60, 0.425, 0.30 and 0.15 mm and prints 1.5; what lies on 0.425 mm counts on 0.30 mm, so it is 2.0 (a slip).</summary>
    [Fact]
    public void What_lies_on_a_sieve_outside_the_series_counts_on_the_next_one()
    {
        var modulus = Requests.Given((150m, 0m), (300m, 25m), (425m, 50m), (600m, 75m)).Result().Summary!.FinenessModulus.ShouldNotBeNull();
        modulus.Value.ShouldBe(Ratio.FromDecimal(2m));
        ReferenceFile.Text("REFERENCES.md").ShouldContain("| FM 1.5 | 2.0 (25+75+100; the 0.425 mm retained counts on 0.30 mm) |");
    }

    /// <summary>rules_and_limits.csv, grading A/B16: residues 92 81 70 60 47 25 0 0 0 give k = 3.75.</summary>
    [Fact]
    public void The_k_value_of_the_published_grading_is_3_75()
    {
        ReferenceFile.Rows("rules_and_limits.csv").Single(row => row["document"].StartsWith("Beton", StringComparison.Ordinal))["rule"].ShouldContain("residues 92 81 70 60 47 25 0 0 0 -> k=3.75");
        var curve = Requests.Given((250m, 8m), (500m, 19m), (1000m, 30m), (2000m, 40m), (4000m, 53m), (8000m, 75m), (16000m, 100m)).Result().Curve;
        FinenessModulus.Of(curve, ModulusSeries.KValue).ShouldBe(new FinenessModulus { Value = Ratio.FromDecimal(3.75m), Relation = Relation.Equal });
    }

    [Fact]
    public void A_sieve_missing_from_the_series_makes_the_modulus_a_guess_that_is_not_made()
    {
        Modulus((150m, 5m), (600m, 80m), (1180m, 100m)).ShouldBeNull();
        Modulus((300m, 5m), (600m, 100m)).ShouldBeNull();
        Modulus((45m, 50m), (90m, 97m)).ShouldBeNull();
        Modulus((45m, 50m), (90m, 100m)).ShouldBe(new FinenessModulus { Value = Ratio.Zero, Relation = Relation.Equal });
        Modulus((300m, 0m), (600m, 100m)).ShouldBe(new FinenessModulus { Value = Ratio.FromDecimal(2m), Relation = Relation.Equal });
    }

    private static FinenessClass? Class(params (decimal, decimal)[] points) => Requests.Given(points).Result().Summary!.FinenessClass;

    private static FinenessModulus? Modulus(params (decimal, decimal)[] points) => Requests.Given(points).Result().Summary!.FinenessModulus;
}
