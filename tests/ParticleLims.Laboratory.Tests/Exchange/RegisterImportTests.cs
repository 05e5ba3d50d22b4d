using Microsoft.EntityFrameworkCore;
using ParticleLims.Analysis.Balances;
using ParticleLims.Analysis.Quantities;
using ParticleLims.Laboratory.Balances;
using ParticleLims.Laboratory.Equipment;
using ParticleLims.Laboratory.Exchange;
using ParticleLims.Laboratory.Record;
using ParticleLims.Laboratory.Sieves;
using ParticleLims.Laboratory.SievingUnits;

namespace ParticleLims.Laboratory.Tests.Exchange;

/// <summary>An existing register comes in by one deed, or not at all, by the rules of what is registered by hand.</summary>
public sealed class RegisterImportTests
{
    private static readonly DateOnly Year = new(2027, 1, 5);
    private static readonly SieveCard Card = new("TS-900", Aperture.FromMicrometres(45m), 200, "ISO 3310-1:2016", "Rack C");
    private static readonly ApertureCard Measured = new() { Document = "I-900", MeasuredOn = new DateOnly(2026, 1, 5), Mean = Aperture.FromMicrometres(45.3m), Largest = Aperture.FromMicrometres(52m), Count = 200, CountBeyond = 0, Deviation = Aperture.FromMicrometres(1.2m) };
    private static readonly BalanceCard Balance = new("B-900", "Bench 9", "Bench 9", Grams(0.001m), Grams(620m), Grams(0.001m), BalanceWay.OnNetwork("127.0.0.1", 4009), "Plain line", Grams(100m), Grams(0.002m));
    private static readonly CheckWeightCard Weight = new("W-900", Grams(100m), WeightClass.F1, "Case 1");
    private static readonly WeightCertificate Certificate = new("K-900", new DateOnly(2026, 1, 5), Mass.FromMicrograms(100_000_050), Mass.FromMicrograms(100), "S-12", new DateOnly(2028, 1, 5));

    private static readonly SievingUnitCard Unit = new("AJ-900", "Air jet 9", "Bench 9", IsAirJet: true, new GaugeCard("10.0.0.9", 4001, PressureUnit.Kilopascal)) { Plate = new TypePlate("Tarnfell Works", "J 1", "3.2") };
    private static readonly MaterialCard Beads = new("Glass beads 35 to 60 µm", "GB-7", "RM-GB-7", new DateOnly(2028, 1, 1), "38 10 0.5\n42 30 0.5\n46 60 0.5\n52 90 0.5");

    [Theory]
    [EachDatabase]
    public async Task A_register_comes_in_by_one_deed_and_its_items_await_what_items_added_by_hand_await(DatabaseKind kind)
    {
        await using var laboratory = await OpenedSmallLaboratory.OpenAsync(kind);
        var file = File(
            new SieveRow(At(2), Card, new SieveCarePlan(90, 50, Mass.FromMicrograms(5_000)), Measured, new EarlierLife(EquipmentState.InService, "", new DateOnly(2026, 1, 5), Year)),
            new BalanceRow(At(3), Balance, new EarlierLife(EquipmentState.OutOfService, "fell down")),
            new WeightRow(At(4), Weight, Certificate, new EarlierLife()),
            new WeightRow(At(5), Weight with { Serial = "W-901" }, Certificate with { DueOn = new DateOnly(2026, 1, 6) }, new EarlierLife()),
            new SieveRow(At(6), Card with { Serial = "TS-901" }, null, null, new EarlierLife(EquipmentState.Scrapped)));
        var before = await EventsAsync(laboratory);
        var plan = await PlanAsync(laboratory, file);
        plan.Rows.Select(row => row.Outcome).ShouldBe([RowOutcome.Add, RowOutcome.Add, RowOutcome.Add, RowOutcome.Add, RowOutcome.LeftOut]);
        plan.Rows[3].Findings.ShouldHaveSingleItem().Words.ShouldContain("counted until 2026-01-06 and is not taken over");
        (await EventsAsync(laboratory)).ShouldBe(before, "a dry run writes nothing");

        (await ImportAsync(laboratory, file, plan.Digest, "import")).ShouldBe(new RegisterImported(4, 0, 1));
        (await ImportAsync(laboratory, file, plan.Digest, "import")).ShouldBe(new RegisterImported(4, 0, 1), "the same key again does nothing");
        (await EventsAsync(laboratory)).ShouldBe(before + 1);
        await using var data = laboratory.Data();
        var sieve = await data.TestSieves.SingleAsync(one => one.Serial == "TS-900");
        (sieve.State, sieve.InspectEveryDays, sieve.InspectEveryRuns, sieve.InspectionDueOn).ShouldBe((EquipmentState.AwaitingCommissioning, 90, 50, null));
        (await data.ApertureMeasurements.SingleAsync(one => one.SieveId == sieve.Id)).Conforms.ShouldBe(true);
        (await data.EquipmentEvents.Where(one => one.EquipmentId == sieve.Id && one.What == "Registered by import").Select(one => one.Note).SingleAsync())
            .ShouldBe("register.csv, row 2. There: it was in service, last inspected or calibrated 2026-01-05, due 2027-01-05.");
        var balance = await data.Balances.SingleAsync(one => one.Serial == "B-900");
        (balance.State, balance.StateReason, balance.Port).ShouldBe((EquipmentState.OutOfService, "fell down", 4009));
        var weights = await data.CheckWeights.OrderBy(one => one.Serial).Select(one => new { one.State, one.Certificate, one.ConventionalMass }).ToListAsync();
        weights.ShouldBe([new { State = EquipmentState.InService, Certificate = "K-900", ConventionalMass = Mass.FromMicrograms(100_000_050) }, new { State = EquipmentState.AwaitingCommissioning, Certificate = "", ConventionalMass = Grams(100m) }]);
        var recorded = await data.Set<RecordEvent>().OrderByDescending(one => one.Sequence).FirstAsync();
        (recorded.Code, recorded.SubjectLabel).ShouldBe(("equipment.import", $"register.csv: 4 added, SHA-256 {file.Sha256}"));
    }

    [Theory]
    [EachDatabase]
    public async Task Sieving_units_and_reference_materials_come_in_by_the_rules_of_what_is_entered_by_hand(DatabaseKind kind)
    {
        await using var laboratory = await OpenedSmallLaboratory.OpenAsync(kind);
        var wrong = File(
            new UnitRow(At(2), Unit with { IsAirJet = false }, new EarlierLife()), new UnitRow(At(3), Unit with { Serial = "AJ-901", Gauge = new GaugeCard("10.0.0.9", 0, PressureUnit.Kilopascal) }, new EarlierLife()),
            new MaterialRow(At(4), Beads with { Points = "38 10" }), new MaterialRow(At(5), Beads with { Batch = "GB-8", Certificate = " " }));
        var plan = await PlanAsync(laboratory, wrong);
        plan.Rows.Select(row => row.Findings[0].Member).ShouldBe(["gaugeHost", "gaugePort", "points", "certificate"]);
        plan.Rows.ShouldAllBe(row => row.Outcome == RowOutcome.Wrong);

        var file = File(
            new UnitRow(At(2), Unit, new EarlierLife(EquipmentState.InService)), new UnitRow(At(3), new SievingUnitCard("SH-900", "Shaker 9", "Side room", IsAirJet: false), new EarlierLife(EquipmentState.OutOfService, "clamp broken")),
            new MaterialRow(At(4), Beads), new MaterialRow(At(5), Beads with { Batch = "GB-8", GoodUntil = new DateOnly(2026, 1, 1) }));
        plan = await PlanAsync(laboratory, file);
        plan.Rows[3].Findings.ShouldHaveSingleItem().Words.ShouldContain("counted until 2026-01-01");
        (await ImportAsync(laboratory, file, plan.Digest, null)).ShouldBe(new RegisterImported(4, 0, 0));
        await using var data = laboratory.Data();
        var units = await data.SievingUnits.Where(unit => EF.Functions.Like(unit.Serial, "%900")).OrderBy(unit => unit.Serial).ToListAsync();
        units.ConvertAll(unit => (unit.Serial, unit.State, unit.StateReason, unit.GaugePort, unit.Software)).ShouldBe(
            [("AJ-900", EquipmentState.AwaitingCommissioning, null, 4001, "3.2"), ("SH-900", EquipmentState.OutOfService, "clamp broken", null, null)]);
        (await data.ReferenceMaterials.OrderBy(material => material.Batch).Select(material => material.Batch).ToListAsync()).ShouldBe(["GB-7", "GB-8"]);

        var again = await PlanAsync(laboratory, File(new UnitRow(At(2), Unit with { Name = "Jet", Plate = new TypePlate("Other Works", null) }, new EarlierLife()), new MaterialRow(At(3), Beads with { Certificate = "RM-2" })));
        again.Rows.ShouldAllBe(row => row.Outcome == RowOutcome.AlreadyThere);
        again.Rows.SelectMany(row => row.Findings).Select(finding => finding.Member).ShouldBe(["name", "maker", "certificate"]);
    }

    [Theory]
    [EachDatabase]
    public async Task One_wrong_row_keeps_all_of_the_file_out(DatabaseKind kind)
    {
        await using var laboratory = await OpenedSmallLaboratory.OpenAsync(kind);
        var file = File(
            new SieveRow(At(2), Card, null, null, new EarlierLife()),
            new SieveRow(At(3), Card with { Serial = "TS-901", FrameMillimetres = 5 }, null, Measured with { Mean = Aperture.FromMicrometres(49m) }, new EarlierLife()),
            new SieveRow(At(4), Card, null, null, new EarlierLife()),
            new BalanceRow(At(5), Balance with { CheckWeight = Grams(700m), ReadingFormat = "Some line" }, new EarlierLife()),
            new WeightRow(At(6), Weight, Certificate with { ComparedWith = "W-900" }, new EarlierLife()),
            new UnreadableRow(At(7), RegisterKind.Balances, "B-901", [new RowFinding("readability", "“x”: A number stands here.")]));
        var plan = await PlanAsync(laboratory, file);
        plan.Rows.Select(row => row.Outcome).ShouldBe([RowOutcome.Add, .. Enumerable.Repeat(RowOutcome.Wrong, 5)]);
        plan.CanBeImported.ShouldBeFalse();
        plan.Rows[1].Findings.Select(finding => finding.Member).ShouldBe(["frameMillimetres", "mean"]);
        plan.Rows[1].Findings[1].Words.ShouldContain("The mean aperture 49.0 µm is 4.0 µm above nominal");
        plan.Rows[2].Findings.ShouldHaveSingleItem().ShouldBe(new RowFinding("serial", "“TS-900” stands in row 2 as well. Keep one of the two, or correct the number."));
        plan.Rows[3].Findings.Select(finding => finding.Member).ShouldBe(["checkWeight", "readingFormat"]);
        plan.Rows[3].Findings[1].Words.ShouldContain("Known are “Plain line”, “Plain line with checksum”");
        plan.Rows[4].Findings.ShouldHaveSingleItem().Words.ShouldContain("never the standard for itself");
        (await laboratory.ShouldRefuseAsync("import-wrong", () => ImportAsync(laboratory, file, plan.Digest, null))).Message.ShouldStartWith("Nothing was imported. Row 3: A sieve has a serial number");
        await laboratory.ShouldRefuseAsync("import-rows", () => PlanAsync(laboratory, File()));
        await laboratory.ShouldRefuseAsync("import-rows", () => PlanAsync(laboratory, File([.. Enumerable.Range(2, 5_001).Select(row => new SieveRow(At(row), Card with { Serial = $"S{row}" }, null, null, new EarlierLife()))])));
    }

    [Theory]
    [EachDatabase]
    public async Task What_is_there_stays_as_it_is_and_what_changed_since_the_dry_run_is_refused(DatabaseKind kind)
    {
        await using var laboratory = await OpenedSmallLaboratory.OpenAsync(kind);
        var there = new SieveCard("TS-GC-45-045", Aperture.FromMicrometres(63m), 200, "ISO 3310-1:2016", "Rack Z");
        var file = File(new SieveRow(At(2), there, null, null, new EarlierLife()), new SieveRow(At(3), Card, null, null, new EarlierLife()));
        var plan = await PlanAsync(laboratory, file);
        plan.Rows[0].Outcome.ShouldBe(RowOutcome.AlreadyThere);
        plan.Rows[0].Findings.ShouldContain(finding => finding.Words == "45 µm in the register, 63 µm in the file. The register stays as it is.");
        await laboratory.ShouldRefuseAsync("changed-meanwhile", () => ImportAsync(laboratory, file with { Sha256 = new string('f', 64) }, plan.Digest, null));
        await laboratory.Get<SieveRegister>().RegisterAsync(laboratory.Small.People.LaboratoryManager.Actor, Card, null, default);
        await laboratory.ShouldRefuseAsync("changed-meanwhile", () => ImportAsync(laboratory, file, plan.Digest, null));
        await laboratory.ShouldRefuseAsync("import-nothing", async () => await ImportAsync(laboratory, file, (await PlanAsync(laboratory, file)).Digest, null));
    }

    [Theory]
    [EachDatabase]
    public async Task The_largest_register_comes_in_whole(DatabaseKind kind)
    {
        await using var laboratory = await OpenedSmallLaboratory.OpenAsync(kind);
        var file = File([.. Enumerable.Range(2, RegisterFile.MostRows).Select(row => new SieveRow(At(row), Card with { Serial = $"S{row}" }, null, null, new EarlierLife()))]);
        (await ImportAsync(laboratory, file, (await PlanAsync(laboratory, file)).Digest, null)).Added.ShouldBe(RegisterFile.MostRows);
        await using var data = laboratory.Data();
        (await data.TestSieves.CountAsync(sieve => EF.Functions.Like(sieve.Serial, "S%"))).ShouldBe(RegisterFile.MostRows);
    }

    private static RowPlace At(int row) => new(null, row);

    private static Mass Grams(decimal grams) => Mass.FromGrams(grams);

    private static RegisterFile File(params RegisterRow[] rows) => new("register.csv", new string('a', 64), rows);

    private static Task<RegisterPlan> PlanAsync(OpenedSmallLaboratory laboratory, RegisterFile file) => laboratory.Get<RegisterImport>().PlanAsync(laboratory.Small.People.LaboratoryManager.Actor, file, default);

    private static Task<RegisterImported> ImportAsync(OpenedSmallLaboratory laboratory, RegisterFile file, string digest, string? key) =>
        laboratory.Get<RegisterImport>().ImportAsync(laboratory.Small.People.LaboratoryManager.Actor, file, digest, key, default);

    private static async Task<int> EventsAsync(OpenedSmallLaboratory laboratory)
    {
        await using var data = laboratory.Data();
        return await data.Set<RecordEvent>().CountAsync();
    }
}
