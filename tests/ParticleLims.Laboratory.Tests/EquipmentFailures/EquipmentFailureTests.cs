using Microsoft.EntityFrameworkCore;
using ParticleLims.Analysis.Balances;
using ParticleLims.Analysis.Quantities;
using ParticleLims.Laboratory.Balances;
using ParticleLims.Laboratory.Certificates;
using ParticleLims.Laboratory.Equipment;
using ParticleLims.Laboratory.EquipmentFailures;
using ParticleLims.Laboratory.Lots;
using ParticleLims.Laboratory.Sieves;
using ParticleLims.Laboratory.Storage;

namespace ParticleLims.Laboratory.Tests.EquipmentFailures;

/// <summary>When a sieve or a balance turns out to be bad, everything that it touched since its last good check is found, held and decided on.</summary>
public sealed class EquipmentFailureTests
{
    [Theory]
    [EachDatabase]
    public async Task The_runs_lots_and_certificates_of_a_case_are_those_that_SQL_names(DatabaseKind kind)
    {
        await using var laboratory = await OpenedSmallLaboratory.OpenAsync(kind);
        var small = laboratory.Small;
        var (calcite, starch) = (small.Calcite.SieveIds[2], small.Starch.SieveIds[0]);
        var before = await small.BookInAsync(small.Calcite);
        await small.Bench().CarryOutAsync(before.RunId, small.Calcite, Powder.Calcite);
        laboratory.Running.Clock.Advance(TimeSpan.FromMinutes(1));
        var good = laboratory.Running.Clock.GetUtcNow();
        var issued = await small.BookInAsync(small.Calcite);
        await small.Bench().CarryOutAsync(issued.RunId, small.Calcite, Powder.Calcite);
        await small.Desk.AcceptAsync(issued.RunId);
        await small.Desk.ReleaseAsync(issued.Id);
        await small.Desk.IssueAsync(issued.Id, issued.Sample.Id);
        var other = await small.BookInAsync(small.Starch);
        await small.Bench().CarryOutAsync(other.RunId, small.Starch, Powder.Starch);
        var goingOn = await small.BookInAsync(small.Calcite);
        await small.Bench().StartAsync(goingOn.RunId, small.Calcite);

        foreach (var (item, isBalance) in ((Guid, bool)[])[(calcite, false), (starch, false), (small.BalanceId, true)])
        {
            var id = isBalance ? await MarkAsync<Balance>(laboratory, item, good) : await MarkAsync<TestSieve>(laboratory, item, good);
            var found = (await laboratory.Get<EquipmentFailureReading>().FindAsync(small.People.QualityManager.Actor, id, default))!;
            var certificates = await laboratory.Get<CertificateDoubts>().OfFailureAsync(small.People.QualityManager.Actor, id, default);
            await using var data = laboratory.Data();
            var column = isBalance
                ? "EXISTS (SELECT 1 FROM weighings w WHERE w.run_id = r.id AND w.balance_id = {0} AND w.at >= {1})"
                : "EXISTS (SELECT 1 FROM run_sieves s WHERE s.run_id = r.id AND s.sieve_id = {0}) AND (r.started_at >= {1} OR EXISTS (SELECT 1 FROM weighings w WHERE w.run_id = r.id AND w.at >= {1}))";
            object[] values = kind == DatabaseKind.Sqlite ? [item.ToString().ToUpperInvariant(), (good.UtcTicks - DateTimeOffset.UnixEpoch.UtcTicks) / TimeSpan.TicksPerMicrosecond] : [item, good.UtcDateTime];
            async Task<List<string>> SqlAsync(string what, string from)
            {
                var sql = $"SELECT DISTINCT {what} AS \"Value\" FROM {from} WHERE {column} ORDER BY 1";
                return await data.Database.SqlQueryRaw<string>(sql, values).ToListAsync();
            }

            found.Runs.Select(run => run.RunNumber).ShouldBe(await SqlAsync("r.number", "runs r"));
            found.Lots.Select(lot => lot.LotNumber).ShouldBe(await SqlAsync("r.lot_number", "runs r"));
            certificates.Select(certificate => certificate.Number).ShouldBe(await SqlAsync("c.number", "certificates c JOIN runs r ON r.sample_id = c.sample_id"));
            found.Runs.ShouldNotContain(run => run.RunId == before.RunId);
            found.Runs.ShouldNotBeEmpty();
        }

        (await laboratory.Get<CertificateDoubts>().OpenAsync(small.People.QualityManager.Actor, default)).Select(one => one.LotId).Distinct().ShouldBe([issued.Id]);
    }

    [Theory]
    [EachDatabase]
    public async Task A_case_takes_the_item_out_holds_what_is_undecided_and_closes_when_every_lot_is_decided(DatabaseKind kind)
    {
        await using var laboratory = await OpenedSmallLaboratory.OpenAsync(kind);
        var small = laboratory.Small;
        var (failing, manager, id) = (laboratory.Get<EquipmentFailing>(), small.People.QualityManager, small.Calcite.SieveIds[0]);
        var good = laboratory.Running.Clock.GetUtcNow();
        var lot = await small.BookInAsync(small.Calcite);
        await small.Bench().CarryOutAsync(lot.RunId, small.Calcite, Powder.Calcite);
        var failure = await MarkAsync<TestSieve>(laboratory, id, good);
        await using (var data = laboratory.Data())
        {
            (await data.TestSieves.SingleAsync(sieve => sieve.Id == id)).State.ShouldBe(EquipmentState.OutOfService);
            (await data.Lots.SingleAsync(one => one.Id == lot.Id)).State.ShouldBe(LotState.OnHold);
        }

        await laboratory.ShouldRefuseAsync("lot-open", () => CloseAsync(1));
        await laboratory.ShouldRefuseAsync("decision-missing", () => failing.DecideAsync(manager.Actor, failure, lot.Id, TouchedLotDecision.Open, "Not yet", 1, default));
        await failing.DecideAsync(manager.Actor, failure, lot.Id, TouchedLotDecision.SievedAgain, "Sieved again on another sieve", 1, default);
        await laboratory.ShouldRefuseAsync("changed-meanwhile", () => failing.DecideAsync(manager.Actor, failure, lot.Id, TouchedLotDecision.ResultsStand, "On second thoughts", 1, default));
        await CloseAsync(2);
        await laboratory.ShouldRefuseAsync("failure-closed", () => CloseAsync(3));
        (await laboratory.Get<EquipmentFailureReading>().AllAsync(manager.Actor, null, default)).ShouldBeEmpty();
        (await laboratory.Get<EquipmentFailureReading>().AllAsync(manager.Actor, id, default)).ShouldHaveSingleItem().OpenLots.ShouldBe(0);

        async Task<bool> CloseAsync(long version) => await failing.CloseAsync(manager.Actor, failure, "One lot, sieved again", await small.ProofAsync(manager), version, default);
    }

    [Theory]
    [EachDatabase]
    public async Task An_open_case_stands_in_the_way_of_release_and_certificate_until_its_lot_is_decided_on(DatabaseKind kind)
    {
        await using var laboratory = await OpenedSmallLaboratory.OpenAsync(kind);
        var small = laboratory.Small;
        var (failing, manager) = (laboratory.Get<EquipmentFailing>(), small.People.QualityManager);
        var good = laboratory.Running.Clock.GetUtcNow();
        var released = await small.BookInAsync(small.Calcite);
        await small.Bench().CarryOutAsync(released.RunId, small.Calcite, Powder.Calcite);
        await small.Desk.AcceptAsync(released.RunId);
        await small.Desk.ReleaseAsync(released.Id);
        var waiting = await small.BookInAsync(small.Calcite);
        await small.Bench().CarryOutAsync(waiting.RunId, small.Calcite, Powder.Calcite);
        await small.Desk.AcceptAsync(waiting.RunId);
        var failure = await MarkAsync<TestSieve>(laboratory, small.Calcite.SieveIds[0], good);

        var number = (await laboratory.Get<EquipmentFailureReading>().FindAsync(manager.Actor, failure, default))!.Number;
        (await laboratory.ShouldRefuseAsync("blocked", () => small.Desk.ReleaseAsync(waiting.Id))).Message.ShouldContain($"Case {number}: the 20 µm sieve");
        (await laboratory.ShouldRefuseAsync("lot-in-doubt", () => small.Desk.IssueAsync(released.Id, released.Sample.Id))).Message.ShouldContain("nothing is decided about this lot yet");

        await failing.DecideAsync(manager.Actor, failure, released.Id, TouchedLotDecision.ResultsStand, "The dent lies outside the sieving area", 1, default);
        await small.Desk.IssueAsync(released.Id, released.Sample.Id);
        await failing.DecideAsync(manager.Actor, failure, waiting.Id, TouchedLotDecision.SievedAgain, "Sieved again on TS-2", 2, default);
        var run = (await small.Bench().ViewAsync(waiting.RunId)).Run.Number;
        (await laboratory.ShouldRefuseAsync("blocked", () => small.Desk.ReleaseAsync(waiting.Id))).Message.ShouldContain($"the lot is to be sieved again, and {run} still counts");
        await failing.DecideAsync(manager.Actor, failure, waiting.Id, TouchedLotDecision.ResultsStand, "The dent lies outside the sieving area", 3, default);
        await small.Desk.ReleaseAsync(waiting.Id);
    }

    [Theory]
    [EachDatabase]
    public async Task The_last_good_check_lies_in_the_past_and_is_known_from_the_checks(DatabaseKind kind)
    {
        await using var laboratory = await OpenedSmallLaboratory.OpenAsync(kind);
        var small = laboratory.Small;
        await laboratory.ShouldRefuseAsync("failure-incomplete", () => MarkAsync<TestSieve>(laboratory, small.Calcite.SieveIds[0], laboratory.Running.Clock.GetUtcNow().AddMinutes(1)));
        var reading = laboratory.Get<EquipmentFailureReading>();
        await using var data = laboratory.Data();
        (await reading.GoodUntilAsync(small.People.Technician.Actor, small.BalanceId, default)).ShouldBe((await data.BalanceChecks.SingleAsync()).At);
        (await reading.GoodUntilAsync(small.People.Technician.Actor, small.Calcite.SieveIds[0], default)).ShouldBe((await data.TestSieves.SingleAsync(sieve => sieve.Id == small.Calcite.SieveIds[0])).InspectedAt);
    }

    [Theory]
    [EachDatabase]
    public async Task Widened_apertures_go_back_to_the_last_measurement_that_found_them_good_and_not_to_a_later_look(DatabaseKind kind)
    {
        await using var laboratory = await OpenedSmallLaboratory.OpenAsync(kind);
        var (manager, measuring, id) = (laboratory.Small.People.LaboratoryManager.Actor, laboratory.Get<SieveMeasuring>(), laboratory.Small.Calcite.SieveIds[2]);
        var material = await measuring.AddMaterialAsync(manager, new MaterialCard("Glass beads 35 to 60 µm", "GB-7", "RM-GB-7", new DateOnly(2028, 1, 1), "38 10 0.5\n42 30 0.5\n46 60 0.5\n52 90 0.5"), null, default);
        var commissioned = (await GoodUntilAsync())!.Value;
        laboratory.Running.Clock.Advance(TimeSpan.FromMinutes(1));
        (await CheckAsync(285.5m)).ShouldBeTrue();
        var good = laboratory.Running.Clock.GetUtcNow();
        laboratory.Running.Clock.Advance(TimeSpan.FromMinutes(1));
        await laboratory.Get<SieveCare>().InspectAsync(manager, id, new SieveFound(SieveFaults.None, "Looked at against the lamp"), await VersionAsync(), null, default);
        (await GoodUntilAsync()).ShouldBe(laboratory.Running.Clock.GetUtcNow(), "while its apertures are good, the last look counts");
        laboratory.Running.Clock.Advance(TimeSpan.FromMinutes(1));
        (await CheckAsync(281.5m)).ShouldBeFalse();
        (await GoodUntilAsync()).ShouldBe(good, "the look in between did not measure an aperture");
        good.ShouldBeGreaterThan(commissioned);

        async Task<bool> CheckAsync(decimal after) => await measuring.CheckAsync(
            manager, id, material, laboratory.Small.BalanceId, [new ReferenceSieving(Mass.FromGrams(280m), Mass.FromGrams(290m), Mass.FromGrams(after))], await VersionAsync(), null, default);

        Task<DateTimeOffset?> GoodUntilAsync() => laboratory.Get<EquipmentFailureReading>().GoodUntilAsync(manager, id, default);

        async Task<long> VersionAsync()
        {
            await using var data = laboratory.Data();
            return (await data.TestSieves.SingleAsync(sieve => sieve.Id == id)).Version;
        }
    }

    [Theory]
    [EachDatabase]
    public async Task A_check_weight_that_turns_out_to_be_bad_touches_what_its_balances_weighed_until_another_weight_checked_them(DatabaseKind kind)
    {
        await using var laboratory = await OpenedSmallLaboratory.OpenAsync(kind);
        var (small, manager) = (laboratory.Small, laboratory.Small.People.LaboratoryManager.Actor);
        var register = laboratory.Get<CheckWeightRegister>();
        var (bad, other) = (await WeightAsync("W-100-1"), await WeightAsync("W-100-2"));
        (await laboratory.Get<EquipmentFailureReading>().GoodUntilAsync(manager, bad, default)).ShouldBe(new DateTimeOffset(2026, 1, 5, 0, 0, 0, TimeSpan.Zero));
        var before = await SieveAsync(null);
        var (first, second) = (await SieveAsync(bad), await SieveAsync(null));
        var after = await SieveAsync(other);
        var good = RunningLaboratory.FirstMorning.AddDays(-30);
        var id = await MarkAsync<CheckWeight>(laboratory, bad, good);
        var found = (await laboratory.Get<EquipmentFailureReading>().FindAsync(manager, id, default))!;
        found.Runs.Select(run => run.RunId).ShouldBe([first, second], ignoreOrder: true);
        found.Runs.ShouldNotContain(run => run.RunId == before || run.RunId == after);
        await using var data = laboratory.Data();
        const string Sql = """
            SELECT DISTINCT r.number AS "Value" FROM runs r JOIN weighings w ON w.run_id = r.id WHERE
            (SELECT c.weight_serial FROM balance_checks c WHERE c.balance_id = w.balance_id AND c.passed AND c.at <= w.at ORDER BY c.at DESC LIMIT 1) = 'W-100-1' ORDER BY 1
            """;
        found.Runs.Select(run => run.RunNumber).ShouldBe(await data.Database.SqlQueryRaw<string>(Sql).ToListAsync());
        (await data.CheckWeights.SingleAsync(weight => weight.Id == bad)).State.ShouldBe(EquipmentState.OutOfService);

        async Task<Guid> WeightAsync(string serial)
        {
            var weight = await register.RegisterAsync(manager, new CheckWeightCard(serial, Mass.FromGrams(100m), WeightClass.F1, "Bench 1"), null, default);
            await register.CalibrateAsync(manager, weight, new WeightCertificate("K-" + serial, new DateOnly(2026, 1, 5), Mass.FromGrams(100m), Mass.FromMicrograms(100), "S-12", new DateOnly(2027, 1, 5)), 1, default);
            return weight;
        }

        async Task<Guid> SieveAsync(Guid? checkedWith)
        {
            laboratory.Running.Clock.Advance(TimeSpan.FromMinutes(1));
            if (checkedWith is { } weight)
            {
                await laboratory.Get<BalanceTesting>().CheckAsync(small.People.Technician.Actor, small.BalanceId, small.Bench().Reading(100m), CheckCircumstances.Ready with { WeightId = weight }, null, default);
                laboratory.Running.Clock.Advance(TimeSpan.FromMinutes(1));
            }

            var lot = await small.BookInAsync(small.Calcite);
            await small.Bench().CarryOutAsync(lot.RunId, small.Calcite, Powder.Calcite);
            return lot.RunId;
        }
    }

    private static async Task<Guid> MarkAsync<T>(OpenedSmallLaboratory laboratory, Guid id, DateTimeOffset good)
        where T : class, IEquipment, IVersioned
    {
        await using var data = laboratory.Data();
        var version = (await data.Set<T>().SingleAsync(item => item.Id == id)).Version;
        return await laboratory.Get<EquipmentFailing>().MarkAsync<T>(laboratory.Small.People.LaboratoryManager.Actor, id, "The reference check missed by 4 %", good, version, null, default);
    }
}
