using System.Globalization;
using Microsoft.Data.Sqlite;
using ParticleLims.Laboratory.Heads;
using ParticleLims.Laboratory.People;
using ParticleLims.Laboratory.Record;
using ParticleLims.Laboratory.Terminals;
using ParticleLims.TestLaboratory.Databases;
using ParticleLims.Web.Start;
using Shouldly;
using Xunit;

namespace ParticleLims.Web.Tests.Start;

/// <summary>The record checked at the console, beside a program that is over.</summary>
public sealed class RecordCommandTests : IAsyncLifetime
{
    private readonly DirectoryInfo place = Directory.CreateTempSubdirectory("particlelims-record-");

    private string File => Path.Combine(place.FullName, "laboratory.db");

    public async ValueTask InitializeAsync()
    {
        await (await (await RunningWeb.StartAsync("--data", place.FullName)).SetUpAsync()).DisposeAsync();
        SqlitePools.LetGoIn(place);
    }

    public ValueTask DisposeAsync()
    {
        SqlitePools.LetGoIn(place);
        place.Delete(recursive: true);
        return ValueTask.CompletedTask;
    }

    [Fact]
    public async Task A_record_that_holds_is_said_to_hold_and_so_is_a_head_that_was_kept_outside()
    {
        var (status, said) = await SayAsync();
        status.ShouldBe(0, said);
        said.ShouldContain("Everything is as the record says.");
        said.ShouldContain("only a head kept outside can tell");
        var (sequence, hash) = Head();
        (status, said) = await SayAsync("--head", string.Create(CultureInfo.InvariantCulture, $"{sequence}:{hash}"));
        status.ShouldBe(0, said);
        said.ShouldContain("so does the head that was kept outside");
    }

    [Fact]
    public async Task What_was_changed_past_the_record_is_named()
    {
        Change("UPDATE people SET full_name = 'Somebody Else'");
        var (status, said) = await SayAsync();
        status.ShouldBe(1);
        said.ShouldContain("full name is");
        said.ShouldContain("in the table it is “Somebody Else”");
    }

    [Fact]
    public async Task A_cut_off_end_is_found_by_the_head()
    {
        var (sequence, hash) = Head();
        Change("DROP TRIGGER record_events_no_delete; DELETE FROM record_events WHERE sequence = (SELECT max(sequence) FROM record_events)");
        var (status, said) = await SayAsync("--head", string.Create(CultureInfo.InvariantCulture, $"{sequence}:{hash}"));
        status.ShouldBe(1);
        said.ShouldContain("its end was cut off");
        said.ShouldContain("The tables were not compared");
    }

    [Fact]
    public async Task A_head_that_left_as_a_file_is_checked_with_its_signature_and_a_changed_one_is_not_believed()
    {
        var watch = Directory.CreateDirectory(Path.Combine(place.FullName, "watch")).FullName;
        await using (var web = await RunningWeb.StartAsync("--data", place.FullName))
        {
            var administrator = await AdministratorOfAsync(web);
            await web.Get<HeadKeeping>().ChangePlanAsync(administrator, new HeadWishes(watch, null, false, 24), "The watch asked for it", 0, default);
            (await web.Get<HeadDeparture>().LeaveAsync(administrator, default)).ShouldBeTrue();
        }

        SqlitePools.LetGoIn(place);
        var file = Directory.GetFiles(watch).ShouldHaveSingleItem();
        var (status, said) = await SayAsync("--head", file);
        status.ShouldBe(0, said);
        said.ShouldContain("head     signed by the laboratory's key");
        said.ShouldContain("so does the head that was kept outside");

        var text = await System.IO.File.ReadAllTextAsync(file);
        var changed = Path.Combine(watch, "changed.txt");
        await System.IO.File.WriteAllTextAsync(changed, text.Replace("event ", "event 1", StringComparison.Ordinal));
        (status, said) = await SayAsync("--head", changed);
        status.ShouldBe(2);
        said.ShouldContain("the file was changed");
        await System.IO.File.WriteAllTextAsync(changed, "shopping list");
        (status, said) = await SayAsync("--head", changed);
        (status, said.Contains("is no head of a record", StringComparison.Ordinal)).ShouldBe((2, true));
    }

    [Theory]
    [InlineData("--head", "7")]
    [InlineData("--head", "seven:0000")]
    [InlineData("--data", "/no/such/folder")]
    public async Task What_cannot_be_told_is_not_told(string option, string value)
    {
        var (status, said) = await SayAsync(option, value);
        status.ShouldBe(2);
        said.ShouldStartWith("This cannot be told:");
    }

    private async Task<(int Status, string Said)> SayAsync(params string[] options)
    {
        var output = new StringWriter();
        var status = await RecordCommand.Read(["verify-record", .. options.Contains("--data") ? [] : new[] { "--data", place.FullName }, .. options])!(output);
        return (status, output.ToString());
    }

    private static async Task<Actor> AdministratorOfAsync(RunningWeb web)
    {
        var signedOn = await web.Get<SignOn>().SignOnAsync("admin", "seven blue kettles sing", new TerminalSeen("test"), default);
        return new Actor(signedOn.PersonId, "test", signedOn.SessionId);
    }

    private (long Sequence, string Hash) Head()
    {
        using var connection = new SqliteConnection(new SqliteConnectionStringBuilder { DataSource = File, Pooling = false }.ConnectionString);
        connection.Open();
        using var command = connection.CreateCommand();
        command.CommandText = "SELECT sequence, hash FROM record_events ORDER BY sequence DESC LIMIT 1";
        using var reader = command.ExecuteReader();
        reader.Read();
        return (reader.GetInt64(0), reader.GetString(1));
    }

    private void Change(string statement)
    {
        using var connection = new SqliteConnection(new SqliteConnectionStringBuilder { DataSource = File, Pooling = false }.ConnectionString);
        connection.Open();
        using var command = connection.CreateCommand();
        command.CommandText = statement;
        command.ExecuteNonQuery().ShouldBeGreaterThan(0);
    }
}
