using ParticleLims.Analysis;
using ParticleLims.Analysis.Quantities;
using ParticleLims.Laboratory.Equipment;
using ParticleLims.Laboratory.Sieves;

namespace ParticleLims.Laboratory.Tests.Sieves;

/// <summary>A sieve is judged by the table of the edition that the laboratory holds; without one by the table that the program ships with.</summary>
public sealed class ToleranceEditionTests
{
    private const string Lines = "20 2.3 11 -\n45 3.1\t13 8\n 63 3.7 15 9 5 \n";

    [Theory]
    [EachDatabase]
    public async Task The_laboratorys_own_table_of_the_sieves_edition_gives_the_verdict_from_then_on(DatabaseKind kind)
    {
        await using var laboratory = await OpenedSmallLaboratory.OpenAsync(kind);
        var (small, manager) = (laboratory.Small, laboratory.Small.People.LaboratoryManager.Actor);
        var (measuring, keeping, sieve) = (small.Get<SieveMeasuring>(), small.Get<ToleranceKeeping>(), small.Calcite.SieveIds[2]);
        var card = new ApertureCard { Document = "Certificate I-4", Kind = EquipmentDocumentKind.CalibrationCertificate, MeasuredOn = new DateOnly(2026, 2, 2), Mean = Aperture.FromMicrometres(48.0m), Largest = Aperture.FromMicrometres(52m), Count = 200, CountBeyond = 0 };
        var before = await measuring.OfAsync(manager, sieve, default);
        before.Edition.ShouldBe(ToleranceKeeping.Shipped("ISO 3310-1:2016").Edition);
        before.PermittedMicrometres!.Value.ShouldBe(3.1m, 0.1m);

        await keeping.AddAsync(manager, new ToleranceCard(" ISO 3310-1:2016 ", "The laboratory's copy, table 1, page 7", Lines.Replace("45 3.1", "45 2.5", StringComparison.Ordinal), 6m), null, default);
        (await laboratory.ShouldRefuseAsync("aperture-outside", () => measuring.MeasureAsync(manager, sieve, card, 2, default))).Message.ShouldContain("2.5");
        laboratory.Running.Clock.Advance(TimeSpan.FromMinutes(1));
        await keeping.AddAsync(manager, new ToleranceCard("ISO 3310-1:2016", "The laboratory's copy, table 1, page 7, compared by two", Lines, 6m), null, default);
        await measuring.MeasureAsync(manager, sieve, card, 2, default);
        var after = await measuring.OfAsync(manager, sieve, default);
        (after.Edition, after.PermittedMicrometres).ShouldBe(("ISO 3310-1:2016", 3.1m));
        after.Measurements.ShouldHaveSingleItem().Edition.ShouldBe("ISO 3310-1:2016");

        (await laboratory.ShouldRefuseAsync("edition-missing", () => measuring.MeasureAsync(manager, small.Calcite.SieveIds[1], card with { Mean = Aperture.FromMicrometres(32m), Largest = Aperture.FromMicrometres(40m) }, 2, default)))
            .Message.ShouldContain("ISO 3310-1:2016 has no tolerances for 32 µm");
        (await keeping.AllAsync(manager, default)).Count.ShouldBe(2);
    }

    [Theory]
    [EachDatabase]
    public async Task A_run_that_starts_then_keeps_the_tables_deviation_and_is_the_less_certain_the_wider_it_is(DatabaseKind kind)
    {
        await using var laboratory = await OpenedSmallLaboratory.OpenAsync(kind);
        var small = laboratory.Small;
        var formula = await UncertaintyAsync(null);
        await small.Get<ToleranceKeeping>().AddAsync(small.People.LaboratoryManager.Actor, new ToleranceCard("ISO 3310-1:2016", "Invented for this test, twice as wide", "20 4.6 11\n32 5.4 13\n45 6.2 13\n63 7.4 15", 6m), null, default);
        var wide = await UncertaintyAsync(6.2m);
        laboratory.Running.Clock.Advance(TimeSpan.FromMinutes(1));
        await small.Get<ToleranceKeeping>().AddAsync(small.People.LaboratoryManager.Actor, new ToleranceCard("ISO 3310-1:2016", "Invented for this test, half as wide", "20 1.2 11\n32 1.4 13\n45 1.6 13\n63 1.9 15", 6m), null, default);
        var narrow = await UncertaintyAsync(1.6m);
        wide.ShouldBeGreaterThan(1.5 * formula);
        narrow.ShouldBeLessThan(formula / 1.5);

        async Task<double> UncertaintyAsync(decimal? deviation)
        {
            var lot = await small.BookInAsync(small.Calcite);
            await small.Bench().CarryOutAsync(lot.RunId, small.Calcite, Powder.Calcite);
            var view = await small.Bench().ViewAsync(lot.RunId);
            var kept = view.Run.Sieves.Single(sieve => sieve.Aperture == Aperture.FromMicrometres(45m)).MeanDeviation;
            kept.ShouldBe(deviation is { } micrometres ? Aperture.FromMicrometres(micrometres) : null);
            var result = view.SoFar.ShouldBeOfType<Evaluated>().Result;
            return result.PercentileUncertainties[result.Percentiles.Index().First(one => one.Item.Percent == 50m).Index]!.StandardUncertainty;
        }
    }

    [Fact]
    public void A_sieve_of_perforated_plate_has_the_shipped_table_of_its_own_standard()
    {
        ToleranceKeeping.Shipped("ISO 3310-2:2013").Find(Aperture.FromMicrometres(16_000m)).ShouldNotBeNull();
        ToleranceKeeping.Shipped("ASTM E11-22").ShouldBe(ToleranceKeeping.Shipped("ISO 3310-1:2016"));
    }

    [Theory]
    [EachDatabase]
    public async Task A_table_that_cannot_be_read_is_refused_by_its_line(DatabaseKind kind)
    {
        await using var laboratory = await OpenedSmallLaboratory.OpenAsync(kind);
        var (small, manager) = (laboratory.Small, laboratory.Small.People.LaboratoryManager.Actor);
        foreach (var (code, lines, words) in ((string, string, string)[])
        [
            ("tolerance-line", "20 2.3 11\n45 3,1 13", "Line 2, “45 3,1 13”: “3,1” is no number"), ("tolerance-line", "20 2.3", "three to seven numbers"), ("tolerance-line", "- 2.3 11", "begins with the nominal aperture"),
            ("tolerance-line", "20 0 11", "“0” is no number in µm above 0"), ("tolerance-table", " ", "at least one row"), ("tolerance-table", "20 2.3 11\n20 2.4 11", "one row for an aperture"),
        ])
        {
            (await laboratory.ShouldRefuseAsync(code, () => small.Get<ToleranceKeeping>().AddAsync(manager, new ToleranceCard("ISO 3310-1:2016", "The laboratory's copy", lines, 6m), null, default))).Message.ShouldContain(words);
        }

        await laboratory.ShouldRefuseAsync("tolerance-table", () => small.Get<ToleranceKeeping>().AddAsync(manager, new ToleranceCard("ISO 3310-1:2016", "The laboratory's copy", Lines, 101m), null, default));
        await laboratory.ShouldRefuseAsync("tolerance-incomplete", () => small.Get<ToleranceKeeping>().AddAsync(manager, new ToleranceCard(" ", "The laboratory's copy", Lines, 6m), null, default));
        (await small.Get<ToleranceKeeping>().AllAsync(manager, default)).ShouldBeEmpty();
    }
}
