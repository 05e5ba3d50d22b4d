using ParticleLims.Analysis.Quantities;
using ParticleLims.Analysis.Sieves;
using ParticleLims.Analysis.Tests.ReferenceData;

namespace ParticleLims.Analysis.Tests.Sieves;

public sealed class ApertureJudgementTests
{
    private static readonly Aperture Nominal = Aperture.FromMicrometres(63m);
    private static readonly ToleranceTable Table = WireClothTolerances.Table;

    /// <summary>Y = 3.7 µm, X = 26.2 µm, Z = 15.0 µm.</summary>
    private static readonly ApertureInspection Good = new() { Nominal = Nominal, MeanMicrometres = 64.2, LargestMicrometres = 75, DeviationMicrometres = 3, Count = 100 };

    [Fact]
    public void A_good_sieve_conforms_and_is_told_why()
    {
        var verdict = ApertureJudgement.Of(Good, Table).ShouldNotBeNull();
        verdict.Conforms.ShouldBe(true);
        verdict.Edition.ShouldBe("ISO 3310-1:1990/2000");
        verdict.Points.Select(point => point.Words).ShouldBe(
        [
            "The mean aperture 64.2 µm is 1.2 µm above nominal; 3.7 µm are permitted.",
            "The largest aperture is 75.0 µm; up to 89.2 µm are permitted.",
            "No aperture is above 78 µm, which 6 % may be.",
            "100 apertures were measured; at least 20 are asked for.",
        ]);
    }

    [Theory]
    [InlineData(66.7, 75, true)]
    [InlineData(66.8, 75, false)]
    [InlineData(59.3, 75, true)]
    [InlineData(59.2, 75, false)]
    public void The_mean_may_be_as_far_from_nominal_as_Y(double mean, double largest, bool conforms) =>
        ApertureJudgement.Of(Good with { MeanMicrometres = mean, LargestMicrometres = largest }, Table)!.Conforms.ShouldBe(conforms);

    [Theory]
    [InlineData(66.7, 60.0, true)]
    [InlineData(66.8, 60.0, false)]
    [InlineData(64.0, 59.2, false)]
    [InlineData(59.3, 64.0, true)]
    public void Warp_and_weft_may_each_be_as_far_from_nominal_as_Y_though_their_mean_is_good(double warp, double weft, bool conforms)
    {
        var verdict = ApertureJudgement.Of(Good with { MeanMicrometres = (warp + weft) / 2, WarpMicrometres = warp, WeftMicrometres = weft }, Table)!;
        verdict.Conforms.ShouldBe(conforms);
        verdict.Points.Count(point => point.Words.Contains("of the warp", StringComparison.Ordinal) || point.Words.Contains("of the weft", StringComparison.Ordinal)).ShouldBe(2);
    }

    [Fact]
    public void One_direction_alone_is_no_measurement() =>
        Should.Throw<ArgumentException>(() => ApertureJudgement.Of(Good with { WarpMicrometres = 63 }, Table)).Message.ShouldContain("given together");

    [Fact]
    public void Wires_are_judged_only_by_a_table_that_has_figures_for_them()
    {
        var shipped = ApertureJudgement.Of(Good with { WireMicrometres = 45.1m }, Table)!;
        shipped.Conforms.ShouldBe(true);
        shipped.Unjudged.ShouldBe(["The mean diameter of the wires is 45.1 µm; the table has no figures for it, so that it is not judged."]);
        var own = ToleranceTable.From("An edition", "Invented", [new ToleranceRow { Nominal = Nominal, MeanMicrometres = 3.7m, WireLeastMicrometres = 38m, WireMostMicrometres = 52m }]);
        ApertureJudgement.Of(Good with { WireMicrometres = 52m }, own)!.Conforms.ShouldBe(true);
        ApertureJudgement.Of(Good with { WireMicrometres = 52.001m }, own)!.Conforms.ShouldBe(false);
        ApertureJudgement.Of(Good with { WireMicrometres = 37.9m }, own)!.Points.ShouldContain(point => point.IsKept == false && point.Words == "The mean diameter of the wires is 37.9 µm; 38 to 52 µm are permitted.");
        ApertureJudgement.Of(Good, own)!.Unjudged.ShouldBeEmpty();
    }

    [Fact]
    public void A_single_wide_aperture_condemns_the_sieve()
    {
        ApertureJudgement.Of(Good with { LargestMicrometres = 89.2, CountBeyondIntermediate = 6 }, Table)!.Conforms.ShouldBe(true);
        ApertureJudgement.Of(Good with { LargestMicrometres = 89.3, CountBeyondIntermediate = 1 }, Table)!.Conforms.ShouldBe(false);
    }

    [Fact]
    public void Seven_of_a_hundred_beyond_Z_are_too_many_and_uncounted_ones_leave_it_open()
    {
        ApertureJudgement.Of(Good with { LargestMicrometres = 80, CountBeyondIntermediate = 7 }, Table)!.Conforms.ShouldBe(false);
        ApertureJudgement.Of(Good with { LargestMicrometres = 80 }, Table)!.Conforms.ShouldBeNull();
    }

    [Fact]
    public void How_many_may_lie_beyond_Z_is_the_editions_affair()
    {
        var table = ToleranceTable.From("own", "a test", [new ToleranceRow { Nominal = Nominal, IntermediateMicrometres = 14.9m }], intermediatePercent: 5m);
        ApertureJudgement.Of(Good with { LargestMicrometres = 80, CountBeyondIntermediate = 5 }, table)!.Conforms.ShouldBe(true);
        ApertureJudgement.Of(Good with { LargestMicrometres = 80, CountBeyondIntermediate = 6 }, table)!.Conforms.ShouldBe(false);
    }

    /// <summary>ISO 3310-2, table 1, as publicly quoted: 10 mm ± 0.21 mm for a single hole.</summary>
    [Theory]
    [InlineData(10_210.0, 9_790.0, true)]
    [InlineData(10_211.0, 9_790.0, false)]
    [InlineData(10_210.0, 9_789.0, false)]
    [InlineData(10_210.0, null, null)]
    public void A_hole_of_perforated_plate_is_limited_up_and_down(double largest, double? smallest, bool? conforms) => ApertureJudgement.Of(
        new ApertureInspection { Nominal = Aperture.FromMicrometres(10_000m), MeanMicrometres = 10_000, LargestMicrometres = largest, SmallestMicrometres = smallest, Count = 30 },
        PerforatedPlateTolerances.Table)!.Conforms.ShouldBe(conforms);

    [Fact]
    public void The_standard_deviation_counts_where_the_edition_limits_it()
    {
        var table = ToleranceTable.From("own", "a test", [new ToleranceRow { Nominal = Nominal, MeanMicrometres = 3.7m, DeviationMicrometres = 2.9m }]);
        ApertureJudgement.Of(Good, table)!.Conforms.ShouldBe(false);
        ApertureJudgement.Of(Good with { DeviationMicrometres = 2.9 }, table)!.Conforms.ShouldBe(true);
        ApertureJudgement.Of(Good with { DeviationMicrometres = null }, table)!.Conforms.ShouldBeNull();
    }

    /// <summary>ISO 3310-1:2016 as publicly quoted: a sieve of at most 20 apertures is measured whole.</summary>
    [Fact]
    public void A_sieve_of_few_apertures_is_measured_whole()
    {
        ReferenceFile.Rows("rules_and_limits.csv").Single(row => row["document"] == "ISO 3310-1:2016")["rule"].ShouldContain("sieves with <=20 apertures: measure all");
        ApertureJudgement.Of(Good with { Count = 11, AperturesOfTheSieve = 12 }, Table, leastCount: 5)!.Conforms.ShouldBe(false);
        ApertureJudgement.Of(Good with { Count = 12, AperturesOfTheSieve = 12 }, Table)!.Conforms.ShouldBe(true);
        ApertureJudgement.Of(Good with { Count = 19 }, Table)!.Conforms.ShouldBe(false);
    }

    [Fact]
    public void Measured_apertures_become_an_inspection()
    {
        var measured = Enumerable.Repeat(62.0, 45).Concat(Enumerable.Repeat(64.0, 45)).Concat(Enumerable.Repeat(80.0, 5)).ToList();
        var inspection = ApertureInspection.Of(Nominal, measured, Table);
        inspection.MeanMicrometres.ShouldBe(((62 + 64) * 45 + 400) / 95.0, 1e-12);
        inspection.LargestMicrometres.ShouldBe(80);
        inspection.CountBeyondIntermediate.ShouldBe(5);
        ApertureJudgement.Of(inspection, Table)!.Conforms.ShouldBe(true, "5 of 95 are not more than six of a hundred");
    }

    [Fact]
    public void A_size_without_a_row_has_no_verdict() => ApertureJudgement.Of(Good with { Nominal = Aperture.FromMicrometres(64m) }, Table).ShouldBeNull();

    [Fact]
    public void Impossible_measurements_are_refused()
    {
        Should.Throw<ArgumentException>(() => ApertureJudgement.Of(Good with { MeanMicrometres = double.NaN }, Table));
        Should.Throw<ArgumentException>(() => ApertureJudgement.Of(Good with { Count = 0 }, Table));
        Should.Throw<ArgumentException>(() => ApertureInspection.Of(Nominal, [63], Table));
    }
}
