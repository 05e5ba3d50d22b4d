using System.Net;
using System.Text;
using ParticleLims.Analysis.Balances;
using ParticleLims.Analysis.Quantities;
using ParticleLims.Laboratory.Balances;
using ParticleLims.Laboratory.Equipment;
using ParticleLims.Laboratory.Exchange;
using ParticleLims.Laboratory.People;
using ParticleLims.Laboratory.Record;
using ParticleLims.Laboratory.Sieves;
using ParticleLims.Laboratory.SievingUnits;
using ParticleLims.Web.Exchange;
using ParticleLims.Web.Tests.Shell;
using Shouldly;
using Xunit;

namespace ParticleLims.Web.Tests.Exchange;

/// <summary>What is exported is the whole register, harmless in a spreadsheet, and can be imported into an empty laboratory.</summary>
public sealed class RegisterExportTests : IAsyncLifetime
{
    private const string Password = "max walks nine quiet miles";
    private static readonly string[] Brought = ["test-sieves", "balances", "check-weights", "sieving-units", "reference-materials"];
    private RunningWeb web = null!;
    private Actor manager = Actor.Unknown("test");

    public async ValueTask InitializeAsync()
    {
        web = await (await RunningWeb.StartAsync()).SetUpAsync();
        manager = await web.AddAsync("max", Role.LaboratoryManager);
        await FillAsync();
    }

    public ValueTask DisposeAsync() => web.DisposeAsync();

    [Fact]
    public async Task What_was_exported_and_imported_into_an_empty_laboratory_is_exported_alike()
    {
        await using var other = await (await RunningWeb.StartAsync()).SetUpAsync();
        var newManager = await other.AddAsync("max", Role.LaboratoryManager);
        var read = RegisterFileReading.Read("equipment.xlsx", await FileAsync(web, "equipment.xlsx"));
        read.Notes.ShouldContain(note => note.Contains("“Checks of sieving units” is passed over", StringComparison.Ordinal));
        var plan = await other.Get<RegisterImport>().PlanAsync(newManager, read.File, default);
        plan.Rows.Where(row => row.Outcome != RowOutcome.Add).ShouldBeEmpty();
        (await other.Get<RegisterImport>().ImportAsync(newManager, read.File, plan.Digest, null, default)).Added.ShouldBe(8);
        foreach (var kind in Brought)
        {
            Encoding.UTF8.GetString(await FileAsync(other, $"{kind}.csv")).ShouldBe(Encoding.UTF8.GetString(await FileAsync(web, $"{kind}.csv")), kind);
        }
    }

    [Fact]
    public async Task The_same_comes_in_from_the_csv_files()
    {
        await using var other = await (await RunningWeb.StartAsync()).SetUpAsync();
        var newManager = await other.AddAsync("max", Role.LaboratoryManager);
        foreach (var kind in Brought)
        {
            var exported = await FileAsync(web, $"{kind}.csv");
            var file = RegisterFileReading.Read($"{kind}.csv", exported).File;
            await other.Get<RegisterImport>().ImportAsync(newManager, file, (await other.Get<RegisterImport>().PlanAsync(newManager, file, default)).Digest, null, default);
            (await FileAsync(other, $"{kind}.csv")).ShouldBe(exported, kind);
        }
    }

    [Fact]
    public async Task A_text_that_a_spreadsheet_would_run_is_made_harmless()
    {
        var csv = Encoding.UTF8.GetString(await FileAsync(web, "test-sieves.csv"));
        csv.ShouldStartWith("\uFEFFSerial number,Nominal aperture (µm),");
        csv.ShouldContain("\r\n'=TS-2,63,200,ISO 3310-1:2016,'@rack,");
        var sheet = TableFile.Read(await FileAsync(web, "equipment.xlsx"))[0];
        sheet.Rows.ShouldContain(row => row[0] == TableCell.Of("=TS-2"));
    }

    [Fact]
    public async Task An_auditor_finds_state_due_date_last_check_and_verdict_of_each_item()
    {
        var sheets = TableFile.Read(await FileAsync(web, "equipment.xlsx"));
        sheets.Select(sheet => sheet.Name).ShouldBe(["Test sieves", "Balances", "Check weights", "Sieving units", "Checks of sieving units", "Reference materials"]);
        Cell("TS-1", SieveColumns.Kind.Title).Text.ShouldBe("inspection certificate");
        Cell("TS-1", "Verdict of the measurement").Text.ShouldBe("conforms");
        Cell("TS-1", SieveColumns.Mean.Title).Number.ShouldBe(45.3m);
        Cell("TS-1", SieveColumns.MeanWeft.Title).Number.ShouldBe(45.7m);
        Cell("TS-1", SieveColumns.Wire.Title).Number.ShouldBe(32.25m);
        Cell("TS-1", SieveColumns.ReferenceRuns.Title).Number.ShouldBe(200m);
        Cell("TS-1", "Maker").Text.ShouldBe("Tarnfell Works");
        Cell("B-1", "Software version").Text.ShouldBe("1.04");
        Cell("B-1", BalanceColumns.RepeatDays.Title).Number.ShouldBe(180m);
        Cell("TS-1", "What is due").Text.ShouldBe("to be commissioned");
        Cell("W-1", CheckWeightColumns.CountsUntil.Title).Day.ShouldBe(Today.AddDays(300));
        Cell("W-1", "State").Text.ShouldBe("in service");
        Cell("AJ-1", "Kind").Text.ShouldBe("air jet");
        var checks = sheets.Single(one => one.Name == "Checks of sieving units").Rows;
        checks[1].Cells.Select(cell => cell.Text).Take(11).ShouldBe(["AJ-1", "hose and seals", Day, "", "", "", "", "", "", "Two cracks near the lid", "failed"]);
        checks[2].Cells.Select(cell => cell.Text).Take(11).ShouldBe(["AJ-1", "timer", Day, "180", "180.5", "s", "0.28", "1", "Stopwatch SW-2", "In its place", "passed"]);

        TableCell Cell(string serial, string column)
        {
            var sheet = sheets.First(one => one.Rows.Any(row => row[0].Text == serial));
            return sheet.Rows.Single(row => row[0].Text == serial)[sheet.Rows[0].Cells.Index().Single(title => title.Item.Text == column).Index];
        }
    }

    [Fact]
    public async Task A_file_that_there_is_none_of_is_not_found()
    {
        using var visitor = await SignedOnAsync(web);
        foreach (var address in (string[])["/equipment/export/people.csv", "/equipment/import/template/people.csv"])
        {
            using var answer = await visitor.OpenAsync(address);
            answer.StatusCode.ShouldBe(HttpStatusCode.NotFound);
        }

        using var template = await visitor.OpenAsync("/equipment/import/template/equipment.xlsx");
        RegisterFileReading.Read("equipment.xlsx", await template.Content.ReadAsByteArrayAsync()).File.Rows.ShouldBeEmpty();
    }

    private static string Day => Today.ToString("yyyy-MM-dd", System.Globalization.CultureInfo.InvariantCulture);

    private static DateOnly Today => DateOnly.FromDateTime(DateTime.UtcNow);

    private async Task FillAsync()
    {
        var sieve = await web.Get<SieveRegister>().RegisterAsync(manager, new SieveCard("TS-1", Micrometres(45m), 200, "ISO 3310-1:2016", "Rack A, left") { Plate = new TypePlate("Tarnfell Works", "S 2") }, null, default);
        await web.Get<SieveMeasuring>().MeasureAsync(manager, sieve, new ApertureCard { Document = "I-1 \"copy\"", MeasuredOn = Today.AddDays(-90), Mean = Micrometres(45.3m), MeanWarp = Micrometres(44.9m), MeanWeft = Micrometres(45.7m), WireMicrometres = 32.25m, Largest = Micrometres(52m), Deviation = Micrometres(1.2m), ExpandedUncertainty = Micrometres(0.125m), Count = 200, CountBeyond = 0 }, 1, default);
        await web.Get<SieveCare>().PlanAsync(manager, sieve, new SieveCarePlan(180, 400, Mass.FromMicrograms(2_500)) { ReferenceEveryDays = 90, ReferenceEveryRuns = 200 }, "It is used every day", 1, default);
        await web.Get<SieveRegister>().RegisterAsync(manager, new SieveCard("=TS-2", Micrometres(63m), 200, "ISO 3310-1:2016", "@rack"), null, default);
        var way = new BalanceWay(WayIn.ServerPort, Device: "/dev/ttyUSB0", BaudRate: 4_800, DataBits: 7, Parity: LineParity.Even, StopBits: 2);
        await web.Get<BalanceRegister>().RegisterAsync(manager, new BalanceCard("B-1", "Bench 1", "Bench 1", Mass.FromMicrograms(100), Mass.FromGrams(220m), Mass.FromMicrograms(80), way, "Plain line", Mass.FromGrams(100m), Mass.FromMicrograms(500)) { Plate = new TypePlate("Tarnfell Works", "B 220", "1.04"), RepeatEveryDays = 180 }, null, default);
        var weight = await web.Get<CheckWeightRegister>().RegisterAsync(manager, new CheckWeightCard("W-1", Mass.FromGrams(100m), WeightClass.F1, "Case 1"), null, default);
        await web.Get<CheckWeightRegister>().CalibrateAsync(manager, weight, new WeightCertificate("K-1", Today.AddDays(-60), Mass.FromMicrograms(100_000_050), Mass.FromMicrograms(120), "S-12", Today.AddDays(300)), 1, default);
        await web.Get<CheckWeightRegister>().RegisterAsync(manager, new CheckWeightCard("W-2", Mass.FromGrams(0.5m), WeightClass.M1, "Case 2"), null, default);
        var unit = await web.Get<SievingUnitRegister>().RegisterAsync(manager, new SievingUnitCard("AJ-1", "Air jet 1", "Bench 1", IsAirJet: true, new GaugeCard("10.0.0.8", 4001, PressureUnit.Hectopascal)) { Plate = new TypePlate("Tarnfell Works", "J 1", "3.2") }, null, default);
        await web.Get<SievingUnitRegister>().RegisterAsync(manager, new SievingUnitCard("SH-1", "Shaker 1", "Side room", IsAirJet: false), null, default);
        await web.Get<SieveMeasuring>().AddMaterialAsync(manager, new MaterialCard("Glass beads 35 to 60 µm", "GB-7", "RM-GB-7", Today.AddDays(300), "38 10 0.5\n42 30 0.5\n46 60 0.5\n52 90 0.5"), null, default);
        await web.Get<UnitChecking>().CheckAsync(manager, unit, new UnitFound(UnitCheckKind.Timer, 180m, 180.5m, "Stopwatch SW-2", Good: true, "In its place"), 1, null, default);
        await web.Get<UnitChecking>().CheckAsync(manager, unit, new UnitFound(UnitCheckKind.Hose, null, null, string.Empty, Good: false, "Two cracks near the lid"), 2, null, default);
    }

    private static Aperture Micrometres(decimal micrometres) => Aperture.FromMicrometres(micrometres);

    private static async Task<byte[]> FileAsync(RunningWeb from, string file)
    {
        using var visitor = await SignedOnAsync(from);
        using var answer = await visitor.OpenAsync($"/equipment/export/{file}");
        answer.StatusCode.ShouldBe(HttpStatusCode.OK);
        return await answer.Content.ReadAsByteArrayAsync();
    }

    private static async Task<Visitor> SignedOnAsync(RunningWeb at)
    {
        var visitor = new Visitor(at);
        using var signedOn = await visitor.SignOnAsync("max", Password);
        return visitor;
    }
}
