using Microsoft.EntityFrameworkCore;
using ParticleLims.Analysis.Quantities;
using ParticleLims.Analysis.Sieves;
using ParticleLims.Laboratory.Equipment;
using ParticleLims.Laboratory.Sieves;

namespace ParticleLims.Laboratory.Tests.Sieves;

/// <summary>Measured apertures with their verdict, and checks with a reference material.</summary>
public sealed class SieveMeasuringTests
{
    private static readonly ApertureCard Document = new()
    {
        Document = "I-4711", MeasuredOn = new DateOnly(2026, 1, 5), Mean = Micrometres(45.3m), Largest = Micrometres(52m), Deviation = Micrometres(1.2m), Count = 200, CountBeyond = 0,
    };

    private static readonly MaterialCard Beads = new("Glass beads 35 to 60 µm", "GB-7", "RM-GB-7", new DateOnly(2028, 1, 1), "38 10 0.5\n42 30 0.5\n46 60 0.5\n52 90 0.5");

    [Theory]
    [EachDatabase]
    public async Task A_makers_document_out_of_tolerance_is_refused_and_an_own_measurement_takes_the_sieve_out(DatabaseKind kind)
    {
        await using var laboratory = await OpenedSmallLaboratory.OpenAsync(kind);
        var id = laboratory.Small.Calcite.SieveIds[2];
        await laboratory.ShouldRefuseAsync("aperture-document", () => MeasureAsync(Document with { MeasuredOn = new DateOnly(2027, 1, 1) }));
        await laboratory.ShouldRefuseAsync("aperture-count", () => MeasureAsync(Document with { Count = 0 }));
        await laboratory.ShouldRefuseAsync("aperture-count", () => MeasureAsync(Document with { Largest = Micrometres(44m) }));
        (await laboratory.ShouldRefuseAsync("aperture-outside", () => MeasureAsync(Document with { Mean = Micrometres(49m) }))).Message.ShouldContain("The mean aperture 49.0 µm is 4.0 µm above nominal");
        (await MeasureAsync(Document)).ShouldBe(true);
        (await MeasureAsync(Document with { Kind = EquipmentDocumentKind.Other, Document = "Own microscope", Mean = Micrometres(49m) })).ShouldBe(false);
        await using var data = laboratory.Data();
        (await data.TestSieves.SingleAsync(sieve => sieve.Id == id)).State.ShouldBe(EquipmentState.OutOfService);
        (await data.ApertureMeasurements.OrderBy(one => one.At).Select(one => one.Edition).Distinct().ToListAsync()).ShouldBe(["ISO 3310-1:1990/2000"]);

        Task<bool?> MeasureAsync(ApertureCard card) => laboratory.Get<SieveMeasuring>().MeasureAsync(laboratory.Small.People.LaboratoryManager.Actor, id, card, 2, default);
    }

    [Theory]
    [EachDatabase]
    public async Task Warp_and_weft_are_judged_each_by_the_tolerance_of_the_mean_and_wires_without_figures_are_kept_without_a_verdict(DatabaseKind kind)
    {
        await using var laboratory = await OpenedSmallLaboratory.OpenAsync(kind);
        var (id, apart) = (laboratory.Small.Calcite.SieveIds[2], Document with { Mean = null, MeanWarp = Micrometres(44.1m), MeanWeft = Micrometres(46.5m), WireMicrometres = 32.25m });
        (await laboratory.ShouldRefuseAsync("aperture-outside", () => MeasureAsync(apart with { MeanWeft = Micrometres(48.2m) }))).Message.ShouldContain("The mean aperture of the weft 48.2 µm is 3.2 µm above nominal");
        (await laboratory.ShouldRefuseAsync("aperture-outside", () => MeasureAsync(apart with { MeanWarp = Micrometres(41.8m) }))).Message.ShouldContain("The mean aperture of the warp 41.8 µm is 3.2 µm below nominal");
        await laboratory.ShouldRefuseAsync("aperture-directions", () => MeasureAsync(apart with { MeanWeft = null }));
        await laboratory.ShouldRefuseAsync("aperture-directions", () => MeasureAsync(apart with { Mean = Micrometres(46.6m) }));
        await laboratory.ShouldRefuseAsync("aperture-mean", () => MeasureAsync(apart with { MeanWarp = null, MeanWeft = null }));
        await laboratory.ShouldRefuseAsync("aperture-wire", () => MeasureAsync(apart with { WireMicrometres = 0m }));
        (await MeasureAsync(apart)).ShouldBe(true);
        (await MeasureAsync(Document)).ShouldBe(true);
        await using var data = laboratory.Data();
        var kept = await data.ApertureMeasurements.SingleAsync(one => one.MeanWarp != null);
        (kept.Mean, kept.MeanWarp, kept.MeanWeft, kept.WireNanometres).ShouldBe((Micrometres(45.3m), Micrometres(44.1m), Micrometres(46.5m), 32_250L));
        kept.Points.ShouldContain("The mean diameter of the wires is 32.25 µm; the table has no figures for it, so that it is not judged.");
        var whole = await data.ApertureMeasurements.SingleAsync(one => one.MeanWarp == null);
        (whole.MeanWeft, whole.WireNanometres).ShouldBe((null, null));

        Task<bool?> MeasureAsync(ApertureCard card) => laboratory.Get<SieveMeasuring>().MeasureAsync(laboratory.Small.People.LaboratoryManager.Actor, id, card, 2, default);
    }

    [Theory]
    [EachDatabase]
    public async Task Wires_are_judged_by_the_laboratorys_own_table_where_it_has_figures_for_them(DatabaseKind kind)
    {
        await using var laboratory = await OpenedSmallLaboratory.OpenAsync(kind);
        var (manager, id) = (laboratory.Small.People.LaboratoryManager.Actor, laboratory.Small.Calcite.SieveIds[2]);
        await laboratory.ShouldRefuseAsync("tolerance-table", () => EnterAsync("45 3.1 13 8 - 27"));
        await laboratory.ShouldRefuseAsync("tolerance-table", () => EnterAsync("45 3.1 13 8 - 37 27"));
        await EnterAsync("45 3.1 13 8 - 27 37");
        (await laboratory.ShouldRefuseAsync("aperture-outside", () => MeasureAsync(37.1m))).Message.ShouldContain("The mean diameter of the wires is 37.1 µm; 27 to 37 µm are permitted.");
        (await MeasureAsync(27m)).ShouldBe(true);

        Task<Guid> EnterAsync(string lines) => laboratory.Get<ToleranceKeeping>().AddAsync(manager, new ToleranceCard("ISO 3310-1:2016", "Invented for this test", lines, 6m), null, default);
        Task<bool?> MeasureAsync(decimal wire) => laboratory.Get<SieveMeasuring>().MeasureAsync(manager, id, Document with { WireMicrometres = wire }, 2, default);
    }

    /// <summary>By hand: 50 % passed between 30 % at 42 µm and 60 % at 46 µm, so 42 (46/42)^(2/3) = 44.626 µm.</summary>
    [Theory]
    [EachDatabase]
    public async Task What_passes_of_a_reference_material_gives_the_effective_aperture_and_a_worn_sieve_goes_out_of_service(DatabaseKind kind)
    {
        await using var laboratory = await OpenedSmallLaboratory.OpenAsync(kind);
        var (small, id) = (laboratory.Small, laboratory.Small.Calcite.SieveIds[2]);
        var material = await laboratory.Get<SieveMeasuring>().AddMaterialAsync(small.People.LaboratoryManager.Actor, Beads, null, default);
        (await CheckAsync(2, 5.000m, 5.002m, 4.998m)).ShouldBeTrue();
        var first = (await laboratory.Get<SieveMeasuring>().OfAsync(small.People.Technician.Actor, id, default)).Checks.ShouldHaveSingleItem();
        first.Effective.Micrometres.ShouldBe(44.626m);
        first.PassingPercent.ShouldBe(50m);
        first.Words.ShouldContain("0.37 µm below nominal");
        (await laboratory.ShouldRefuseAsync("reference-outside", () => CheckAsync(2, 9.500m))).Message.ShouldContain("95 % passed");
        await laboratory.ShouldRefuseAsync("reference-masses", () => CheckAsync(2, 10.5m));
        await laboratory.ShouldRefuseAsync("reference-count", () => CheckAsync(2));
        (await CheckAsync(2, 5.600m, 5.601m)).ShouldBeFalse();
        await using var data = laboratory.Data();
        var sieve = await data.TestSieves.SingleAsync(one => one.Id == id);
        (sieve.State, sieve.StateReason).ShouldBe((EquipmentState.OutOfService, "the check with a reference material failed"));
        (await data.ReferenceChecks.SingleAsync(check => !check.Passed)).Words.ShouldContain("the apertures have widened");

        Task<bool> CheckAsync(long version, params decimal[] passed) => laboratory.Get<SieveMeasuring>().CheckAsync(
            small.People.Technician.Actor, id, material, small.BalanceId, [.. passed.Select(grams => new ReferenceSieving(Mass.FromGrams(280m), Mass.FromGrams(290m), Mass.FromGrams(290m - grams)))], version, null, default);
    }

    [Theory]
    [EachDatabase]
    public async Task A_curve_that_cannot_be_read_and_a_certificate_that_has_expired_are_refused(DatabaseKind kind)
    {
        await using var laboratory = await OpenedSmallLaboratory.OpenAsync(kind);
        var (manager, measuring) = (laboratory.Small.People.LaboratoryManager.Actor, laboratory.Get<SieveMeasuring>());
        foreach (var points in (string[])["", "45 50", "45 fifty\n50 60", "45 60\n50 50", "45 50 1 2\n50 60", "45 50\n50 101", "45,3 50\n50 60"])
        {
            (await laboratory.ShouldRefuseAsync("material-curve", () => measuring.AddMaterialAsync(manager, Beads with { Points = points }, null, default))).Message.ShouldStartWith("The curve cannot be read");
        }

        await laboratory.ShouldRefuseAsync("material-incomplete", () => measuring.AddMaterialAsync(manager, Beads with { Certificate = " " }, null, default));
        var material = await measuring.AddMaterialAsync(manager, Beads with { GoodUntil = new DateOnly(2026, 1, 1) }, null, default);
        await laboratory.ShouldRefuseAsync("material-used", () => measuring.AddMaterialAsync(manager, Beads, null, default));
        await laboratory.ShouldRefuseAsync("material-expired", () => measuring.CheckAsync(
            manager, laboratory.Small.Calcite.SieveIds[2], material, laboratory.Small.BalanceId, [new ReferenceSieving(Mass.FromGrams(280m), Mass.FromGrams(290m), Mass.FromGrams(285m))], 2, null, default));
    }

    [Theory]
    [EachDatabase]
    public async Task A_method_that_asks_for_them_evaluates_with_the_effective_apertures_and_another_does_not(DatabaseKind kind)
    {
        await using var laboratory = await OpenedSmallLaboratory.OpenAsync(kind);
        var small = laboratory.Small;
        var material = await laboratory.Get<SieveMeasuring>().AddMaterialAsync(small.People.LaboratoryManager.Actor, Beads, null, default);
        await laboratory.Get<SieveMeasuring>().CheckAsync(
            small.People.Technician.Actor, small.Calcite.SieveIds[2], material, small.BalanceId, [new ReferenceSieving(Mass.FromGrams(280m), Mass.FromGrams(290m), Mass.FromGrams(285m))], 2, null, default);
        var nominal = await UsedAsync(small.Calcite);
        var effective = await UsedAsync(await small.WithMethodAsync(small.Calcite, draft => draft with { EffectiveApertures = true }));
        nominal.ShouldBe([20m, 32m, 45m, 63m]);
        effective.ShouldBe([20m, 32m, 44.626m, 63m]);

        async Task<List<decimal>> UsedAsync(TestMethod method)
        {
            var lot = await small.BookInAsync(method);
            await small.Bench().CarryOutAsync(lot.RunId, method, Powder.Calcite);
            return [.. (await small.Bench().ViewAsync(lot.RunId)).Stored!.Result.Cuts.Select(cut => cut.UsedAperture.Micrometres).Order()];
        }
    }

    /// <summary>
    /// The check simulated 10 000 times: the true aperture of the sieve, the certificate and what passes are drawn, and the interval of ± 1.96 u around the effective aperture contains the true one
    /// in 93 to 97 of a hundred.
    /// </summary>
    [Fact]
    public void Ninety_five_percent_intervals_contain_the_true_aperture_in_93_to_97_percent_of_ten_thousand_checks()
    {
        var draws = new Random(20_260_301);
        var truth = ReferenceMaterial.PointsOf(Beads.Points);
        const double UncertaintyPercent = 0.6;
        var contained = 0;
        for (var check = 0; check < 10_000; check++)
        {
            var aperture = 43 + (2.5 * draws.NextDouble());
            var share = Math.Log(aperture / 42) / Math.Log(46.0 / 42);
            var passing = 30 + (30 * share) + (UncertaintyPercent * Normal(draws));
            var common = Normal(draws);
            var certified = CertificateCurve.Through(truth.Select(point => point with { PassingPercent = point.PassingPercent + (common * point.PassingUncertaintyPercent) }));
            var found = certified.Read(passing, UncertaintyPercent).Aperture!;
            contained += Math.Abs(found.Micrometres - aperture) <= 1.959964 * found.StandardUncertaintyMicrometres ? 1 : 0;
        }

        contained.ShouldBeInRange(9_300, 9_700);
    }

    private static double Normal(Random draws) => Math.Sqrt(-2 * Math.Log(1 - draws.NextDouble())) * Math.Cos(2 * Math.PI * draws.NextDouble());

    private static Aperture Micrometres(decimal micrometres) => Aperture.FromMicrometres(micrometres);
}
