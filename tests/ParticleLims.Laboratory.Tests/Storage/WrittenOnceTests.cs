using System.Data.Common;
using System.Globalization;
using Microsoft.EntityFrameworkCore;
using ParticleLims.Analysis.Quantities;
using ParticleLims.Laboratory.AccessReviews;
using ParticleLims.Laboratory.Balances;
using ParticleLims.Laboratory.Equipment;
using ParticleLims.Laboratory.EquipmentFailures;
using ParticleLims.Laboratory.Heads;
using ParticleLims.Laboratory.Investigations;
using ParticleLims.Laboratory.Outgoing;
using ParticleLims.Laboratory.Samples;
using ParticleLims.Laboratory.Sieves;
using ParticleLims.Laboratory.SievingUnits;
using ParticleLims.Laboratory.Storage;
using ParticleLims.Laboratory.Templates;

namespace ParticleLims.Laboratory.Tests.Storage;

/// <summary>What is written once stays, whatever statement comes and whoever sends it to the database.</summary>
public sealed class WrittenOnceTests
{
    [Theory]
    [EachDatabase]
    public async Task Rows_written_once_refuse_every_change(DatabaseKind kind)
    {
        await using var laboratory = await OpenedSmallLaboratory.OpenAsync(kind);
        await FillAsync(laboratory.Small);
        await using var data = laboratory.Data();
        foreach (var (table, key) in AppendOnlyTables.All)
        {
            var before = await RowsAsync(data, table);
            before.ShouldNotBeEmpty($"{table} has rows to change");
            var columns = await ColumnsAsync(data, table);
            foreach (var attack in Attacks(kind, table, key, columns, Fixed(table, columns)))
            {
                var fault = await Should.ThrowAsync<DbException>(() => data.Database.ExecuteSqlRawAsync(attack), attack);
                fault.Message.ShouldContain($"{table}: rows are written once", Case.Sensitive, attack);
            }

            (await RowsAsync(data, table)).ShouldBe(before, $"{table} is as it was");
        }
    }

    [Fact]
    public void Only_what_was_written_down_on_arrival_can_be_corrected_of_a_sample()
    {
        var corrected = typeof(SampleParticulars).GetProperties().Select(property => property.Name).Append(nameof(Sample.SamplingLacks));
        var all = typeof(Sample).GetProperties().Select(property => property.Name).Except([nameof(Sample.Particulars)]);
        AppendOnlyTables.Corrected.ShouldHaveSingleItem().Fixed.Replace("_", string.Empty, StringComparison.Ordinal).Split(", ").ShouldBe(all.Except(corrected).Select(name => name.ToLowerInvariant()), ignoreOrder: true);
    }

    private static string Fixed(string table, string[] columns) =>
        AppendOnlyTables.Corrected.Where(one => one.Table == table).Select(one => one.Fixed.Split(", ")).FirstOrDefault() is { } those ? columns.Last(those.Contains) : columns[^1];

    private static IEnumerable<string> Attacks(DatabaseKind kind, string table, string key, string[] columns, string last)
    {
        var (all, keys) = (string.Join(", ", columns), key.Split(", "));
        yield return $"UPDATE {table} SET {last} = {last}";
        yield return $"UPDATE {table} SET {keys[0]} = {keys[0]}";
        yield return $"DELETE FROM {table}";
        yield return $"INSERT INTO {table} ({all}) SELECT {all} FROM {table} WHERE true ON CONFLICT ({key}) DO UPDATE SET {last} = excluded.{last}";
        if (kind == DatabaseKind.Postgres)
        {
            yield return $"TRUNCATE {table} CASCADE";
            yield break;
        }

        yield return $"INSERT OR REPLACE INTO {table} ({all}) SELECT {all} FROM {table}";
        yield return $"REPLACE INTO {table} ({all}) SELECT {all} FROM {table}";
        yield return $"UPDATE OR REPLACE {table} SET {last} = {last}";
    }

    private static async Task FillAsync(SmallLaboratory small)
    {
        var good = await (await small.BookInAsync(small.Calcite)).ReleaseAsync(Powder.Calcite);
        var beside = await (await small.BookInAsync(small.Calcite)).ReleaseAsync(Powder.Calcite);
        await small.Get<Laboratory.Certificates.CertificateIssue>().IssueSeveralAsync(small.People.QualityManager.Actor, [good.Sample.Id, beside.Sample.Id], null, default);
        var bad = await (await small.BookInAsync(small.Calcite)).SubmitAsync(Powder.CoarseCalcite);
        var investigation = (await small.Desk.InvestigationsAsync(bad.Id)).Single();
        await small.Get<InvestigationWork>().NoteAsync(small.People.Reviewer.Actor, investigation.Id, "The sieve was looked at: no hole", null, default);
        await FillInvestigationAsync(small, investigation.Id, good.Id);
        await small.Desk.ProposeAsync(bad.Id);
        await small.ReadCautionsAsync(small.People.Technician);
        var begun = await small.BookInAsync(small.Starch);
        await small.Bench().StartAsync(begun.RunId, begun.Method);
        await small.Bench().ScanAsync(begun.RunId, "TS-PS-63-032");
        await (await small.BookInAsync(small.Calcite)).SubmitAsync(Powder.Calcite);
        var looked = await small.BookInAsync(small.Calcite);
        await small.Bench().StartAsync(looked.RunId, looked.Method);
        await small.Bench().LookAsync(looked.RunId, 1, "Brushed, mesh whole");
        var few = await small.Get<SampleReception>().BookInAsync(small.People.Technician.Actor, small.NewSample(await small.BookInLotAsync(small.Starch), small.Starch).Arriving(sample => sample with { Increments = 3 }), null, default);
        await small.Get<SamplingAccepting>().AcceptAsync(small.People.QualityManager.Actor, few.Id, "Three cross all of the silo", await small.ProofAsync(small.People.QualityManager), default);
        await FillPeopleAsync(small);
        await FillEquipmentAsync(small, begun);
        await FillOutgoingAsync(small);
        var look = new TemplateDraft(PaperPlan.Usual with { Logo = new PaperLogo(string.Empty, 0, 0, "A mill wheel") }) { Picture = LogoFiles.Png() };
        await small.Get<TemplateKeeping>().WriteAsync(small.People.LaboratoryManager.Actor, "CT-LOGO", "With a logo", look, null, default);

        // Last of all: from here on everybody is asked again before they sign.
        await small.Get<Laboratory.Signatures.SigningPolicies>().ChangeAdditionAsync(small.People.Administrator.Actor, "Sign at the desk", "As the auditor asked", "1.0", default);
    }

    private static async Task FillPeopleAsync(SmallLaboratory small)
    {
        var method = await small.WithMethodAsync(small.Spice, draft => draft with { AuthorisationNeeded = true });
        var (lot, manager) = (await small.BookInAsync(method), small.People.QualityManager);
        await small.Get<Laboratory.Runs.AuthorisationOverriding>().AllowAsync(manager.Actor, lot.RunId, small.People.Technician.Id, "Everybody else is ill", await small.ProofAsync(manager), default);
        await small.Bench().StartAsync(lot.RunId, method);
    }

    private static async Task FillOutgoingAsync(SmallLaboratory small)
    {
        var ways = new OutgoingWays(new MailServer("mail.tarnfell.example", MailServer.UsualPort, MailSecurity.Tls, null, "laboratory@tarnfell.example"), null);
        await small.Get<OutgoingKeeping>().ChangeAsync(small.People.Administrator.Actor, ways, "The watch asked for it", 0, default);
        await small.Get<OutgoingKeeping>().SendTestAsync(small.People.Administrator.Actor, "watch@tarnfell.example", default);
        var queued = (await small.Get<OutgoingSending>().DueAsync(DateTimeOffset.MaxValue, 1, default)).Single().Message;
        await small.Get<OutgoingSending>().FailedAsync(queued.Id, "no answer", default);
        await small.Get<HeadKeeping>().ChangePlanAsync(small.People.Administrator.Actor, new HeadWishes("/watch", "watch@tarnfell.example", false, 24), "The watch asked for it", 0, default);
        await small.Get<HeadDeparture>().LeaveAsync(small.People.Administrator.Actor, default);
        var manager = small.People.QualityManager;
        var proof = await small.ProofAsync(manager);
        await small.Get<AccessReviewing>().SignAsync(manager.Actor, "All as it should be", proof, (await small.Get<AccessReviewing>().BoardAsync(manager.Actor, default)).List.ContentHash, default);
    }

    private static async Task FillInvestigationAsync(SmallLaboratory small, Guid investigation, Guid released)
    {
        var (work, reviewer, manager) = (small.Get<InvestigationWork>(), small.People.Reviewer.Actor, small.People.QualityManager);
        await work.AnswerAsync(reviewer, investigation, PhasePoint.Balance, PointFinding.InOrder, "Checked that morning", null, default);
        await work.AssociateAsync(reviewer, investigation, (await small.Desk.EvidenceAsync(released)).Lot.Number, "Made on the same day", null, default);
        var supposed = await small.Get<HypothesisWork>().ProposeAsync(reviewer, investigation, "The sieve is blinded", "The second half on another sieve", "Supported at 97 % or more", null, default);
        await small.Get<HypothesisWork>().ApproveAsync(manager.Actor, supposed, await small.ProofAsync(manager), 1, default);
        await small.Get<HypothesisWork>().MeasureAsync(reviewer, supposed, "Passing 45 µm", 92.1m, "%", null, default);
        await small.Desk.AskReopeningAsync(released);
    }

    private static async Task FillEquipmentAsync(SmallLaboratory small, TestLot begun)
    {
        var (care, technician, manager) = (small.Get<SieveCare>(), small.People.Technician.Actor, small.People.QualityManager);
        var (sieve, used) = (small.Spice.SieveIds[0], begun.Method.SieveIds[0]);
        await care.InspectAsync(technician, sieve, new SieveFound(SieveFaults.None, "Looked at against the lamp", Photograph: new FileGiven("sieve.jpg", [0xFF, 0xD8, 0xFF, 0xE0])), 2, null, default);
        await care.CleanAsync(technician, sieve, CleaningWay.SoapAndWater, "Dried at 60 °C", 3, default);
        await care.PlanAsync(small.People.LaboratoryManager.Actor, used, new SieveCarePlan(365, 1, SieveCarePlan.UsualTareScatter), "Look at it after each run", 2, default);
        await small.Get<Laboratory.Runs.FitnessOverriding>().AllowAsync(manager.Actor, begun.RunId, used, "Nothing else to sieve with", await small.ProofAsync(manager), default);
        await FillMeasuredAsync(small, small.Spice.SieveIds[1]);
    }

    private static async Task FillMeasuredAsync(SmallLaboratory small, Guid sieve)
    {
        var (manager, measuring, weights) = (small.People.LaboratoryManager.Actor, small.Get<SieveMeasuring>(), small.Get<CheckWeightRegister>());
        await measuring.MeasureAsync(manager, sieve, new ApertureCard { Document = "I-1", MeasuredOn = new DateOnly(2026, 1, 5), Mean = Aperture.FromMicrometres(251m), Largest = Aperture.FromMicrometres(260m), Count = 100, CountBeyond = 0 }, 2, default);
        var material = await measuring.AddMaterialAsync(manager, new MaterialCard("Glass beads", "GB-1", "RM-1", new DateOnly(2028, 1, 1), "200 10 0.5\n300 90 0.5"), null, default);
        await measuring.CheckAsync(manager, sieve, material, small.BalanceId, [new ReferenceSieving(Mass.FromGrams(280m), Mass.FromGrams(290m), Mass.FromGrams(284.5m))], 2, null, default);
        var weight = await weights.RegisterAsync(manager, new CheckWeightCard("W-1", Mass.FromGrams(100m), Analysis.Balances.WeightClass.F1, "Bench 1"), null, default);
        await weights.CalibrateAsync(manager, weight, new WeightCertificate("K-1", new DateOnly(2026, 1, 5), Mass.FromGrams(100m), Mass.FromMicrograms(100), "S-1", new DateOnly(2028, 1, 5)), 1, default);
        await small.Get<BalanceTesting>().TestRepeatabilityAsync(manager, small.BalanceId, [.. Enumerable.Repeat(Mass.FromGrams(100m), 10)], 2, null, default);
        var unit = await small.Get<SievingUnitRegister>().RegisterAsync(manager, new SievingUnitCard("AJ-1", "Air jet", "Bench 1", IsAirJet: true), null, default);
        await small.Get<UnitChecking>().CheckAsync(manager, unit, UnitFound.Care(UnitCheckKind.Hose, good: true, "No crack found"), 1, null, default);
        await small.Get<ToleranceKeeping>().AddAsync(manager, new ToleranceCard("ISO 3310-1:2016", "The laboratory's copy, table 1", "250 9.9 58 -", 6m), null, default);
        await small.Get<EquipmentFailing>().MarkAsync<TestSieve>(manager, small.Calcite.SieveIds[0], "The cloth is torn", RunningLaboratory.FirstMorning.AddDays(-1), 2, null, default);
    }

    private static async Task<string[]> ColumnsAsync(LaboratoryContext data, string table)
    {
        await data.Database.OpenConnectionAsync();
        await using var command = data.Database.GetDbConnection().CreateCommand();
        command.CommandText = $"SELECT * FROM {table} LIMIT 1";
        await using var reader = await command.ExecuteReaderAsync();
        return [.. Enumerable.Range(0, reader.FieldCount).Select(reader.GetName)];
    }

    private static async Task<List<string>> RowsAsync(LaboratoryContext data, string table)
    {
        await data.Database.OpenConnectionAsync();
        await using var command = data.Database.GetDbConnection().CreateCommand();
        command.CommandText = $"SELECT * FROM {table} ORDER BY 1, 2";
        await using var reader = await command.ExecuteReaderAsync();
        var rows = new List<string>();
        while (await reader.ReadAsync())
        {
            rows.Add(string.Join('|', Enumerable.Range(0, reader.FieldCount).Select(column => reader.GetValue(column) is byte[] bytes ? Convert.ToHexString(bytes) : Convert.ToString(reader.GetValue(column), CultureInfo.InvariantCulture))));
        }

        return rows;
    }
}
