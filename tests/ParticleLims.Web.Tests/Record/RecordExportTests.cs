using System.Net;
using System.Text.Json;
using ParticleLims.Laboratory.People;
using ParticleLims.Laboratory.Record;
using ParticleLims.Web.Record;
using ParticleLims.Web.Tests.Shell;
using Shouldly;
using Xunit;

namespace ParticleLims.Web.Tests.Record;

public sealed class RecordExportTests : IAsyncLifetime
{
    private RunningWeb web = null!;

    public async ValueTask InitializeAsync() => web = await (await RunningWeb.StartAsync()).SetUpAsync();

    public ValueTask DisposeAsync() => web.DisposeAsync();

    [Theory]
    [InlineData("lot 7", "lot 7")]
    [InlineData("=2+3", "'=2+3")]
    [InlineData("+49", "'+49")]
    [InlineData("-1", "'-1")]
    [InlineData("@now", "'@now")]
    [InlineData("a, b", "\"a, b\"")]
    [InlineData("say \"so\"", "\"say \"\"so\"\"\"")]
    [InlineData("=A1,\"x\"", "\"'=A1,\"\"x\"\"\"")]
    [InlineData("", "")]
    public void A_cell_is_text_to_every_spreadsheet(string text, string cell) => RecordExport.Cell(text).ShouldBe(cell);

    [Fact]
    public async Task The_exported_chain_can_be_followed_from_hash_to_hash()
    {
        for (var number = 0; number < 3; number++)
        {
            await web.AddAsync($"person{number}", Role.Technician);
        }

        using var visitor = await AdministratorAsync();
        using var answer = await visitor.OpenAsync("/record/export?format=json");
        answer.Content.Headers.ContentDisposition!.FileName!.Trim('"').ShouldEndWith(".json");
        using var json = JsonDocument.Parse(await answer.Content.ReadAsStringAsync());
        var events = json.RootElement.EnumerateArray().Reverse().ToList();
        events.Count.ShouldBeGreaterThan(5);
        events[0].GetProperty("previousHash").GetString().ShouldBe(RecordChain.Origin);
        events.Zip(events.Skip(1)).ShouldAllBe(pair => pair.First.GetProperty("hash").GetString() == pair.Second.GetProperty("previousHash").GetString());
    }

    [Fact]
    public async Task The_exported_table_holds_what_was_asked_for_and_nothing_secret()
    {
        await web.AddAsync("tom", Role.Technician);
        using var visitor = await AdministratorAsync();
        using var answer = await visitor.OpenAsync("/record/export?format=csv&words=people.create");
        var lines = (await answer.Content.ReadAsStringAsync()).Split("\r\n", StringSplitOptions.RemoveEmptyEntries);
        lines.Length.ShouldBe(2);
        lines[1].ShouldContain("Account created");
        lines[1].ShouldContain("Password hash: – → (secret)");
    }

    [Theory]
    [InlineData("csv", "CSV: everything with “admin”")]
    [InlineData("json", "JSON: everything with “admin”")]
    [InlineData("pdf", "PDF: everything with “admin”")]
    public async Task An_export_leaves_an_event_that_says_what_was_taken_and_ends_before_it(string format, string label)
    {
        using var visitor = await AdministratorAsync();
        using var answer = await visitor.OpenAsync($"/record/export?format={format}&words=admin");
        answer.StatusCode.ShouldBe(HttpStatusCode.OK);
        (await answer.Content.ReadAsByteArrayAsync()).ShouldNotBeEmpty();
        var left = (await web.Get<RecordReading>().FindAsync(web.Administrator, new RecordQuestion(WordPart: "record.export"), 0, 10, default)).Events.ShouldHaveSingleItem();
        (left.SubjectLabel, left.PersonName).ShouldBe((label, "Ada Field"));
        if (format == "csv")
        {
            (await answer.Content.ReadAsStringAsync()).ShouldNotContain("record.export");
        }
    }

    [Fact]
    public async Task The_export_of_the_equipment_register_leaves_an_event()
    {
        await web.AddAsync("max", Role.LaboratoryManager);
        using var visitor = new Visitor(web);
        using var signedOn = await visitor.SignOnAsync("max", "max walks nine quiet miles");
        using var answer = await visitor.OpenAsync("/equipment/export/balances.csv");
        answer.StatusCode.ShouldBe(HttpStatusCode.OK);
        using var none = await visitor.OpenAsync("/equipment/export/nothing.csv");
        none.StatusCode.ShouldBe(HttpStatusCode.NotFound);
        (await web.Get<RecordReading>().FindAsync(web.Administrator, new RecordQuestion(WordPart: "record.export-register"), 0, 10, default)).Events.ShouldHaveSingleItem().SubjectLabel.ShouldBe("balances.csv");
    }

    [Fact]
    public async Task The_page_shows_what_changed_in_words()
    {
        await web.AddAsync("tom", Role.Technician);
        using var visitor = await AdministratorAsync();
        using var page = await visitor.OpenAsync("/record?words=people.create");
        page.StatusCode.ShouldBe(HttpStatusCode.OK);
        var html = await page.Content.ReadAsStringAsync();
        html.ShouldContain("Account created");
        html.ShouldContain("Person role technician added");
        html.ShouldContain(">yes</span>");
        html.ShouldNotContain(">True</span>");
        html.ShouldNotContain("Laboratory set up");
    }

    [Fact]
    public async Task Every_deed_that_was_recorded_has_words()
    {
        var events = (await web.Get<RecordReading>().FindAsync(web.Administrator, new RecordQuestion(), 0, 100, CancellationToken.None)).Events;
        events.ShouldNotBeEmpty();
        events.Select(one => one.Code).ShouldAllBe(code => DeedWords.All.ContainsKey(code));
        DeedWords.Of("equipment.commission").ShouldBe("Commissioned");
        DeedWords.Of("documents.approve").ShouldBe("Version approved");
    }

    private async Task<Visitor> AdministratorAsync()
    {
        var visitor = new Visitor(web);
        using var signedOn = await visitor.SignOnAsync("admin", "seven blue kettles sing");
        return visitor;
    }
}
