using System.Globalization;
using Microsoft.Data.Sqlite;
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
        SqliteConnection.ClearAllPools();
    }

    public ValueTask DisposeAsync()
    {
        SqliteConnection.ClearAllPools();
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
