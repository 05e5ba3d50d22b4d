using ParticleLims.Laboratory.Alerts;
using ParticleLims.Laboratory.Record;
using ParticleLims.TestLaboratory.Databases;
using ParticleLims.Web.Start;
using Shouldly;
using Xunit;

namespace ParticleLims.Web.Tests.Start;

/// <summary>A power cut leaves a mark that an end in order takes away; the next start says so in the record and what it checked.</summary>
public sealed class AfterDisorderTests : IDisposable
{
    private readonly DirectoryInfo place = Directory.CreateTempSubdirectory("particlelims-disorder-");

    private string Mark => Path.Combine(place.FullName, "laboratory.db.in-use");

    [Fact]
    public async Task An_end_in_order_says_nothing_and_one_without_leaves_an_alert_with_what_was_checked_once()
    {
        Actor administrator;
        await using (var web = await (await StartAsync()).SetUpAsync())
        {
            administrator = web.Administrator;
            new FileInfo(Mark).Length.ShouldBeGreaterThan(0, "it runs");
        }

        new FileInfo(Mark).Length.ShouldBe(0, "it ended in order");
        await using (var web = await StartAsync())
        {
            await Task.Delay(TimeSpan.FromSeconds(1));
            (await AlertsAsync(web, administrator)).ShouldBeEmpty();
        }

        SqlitePools.LetGoIn(place);
        await File.WriteAllTextAsync(Mark, "running");
        await using (var web = await StartAsync())
        {
            var alert = (await WaitAsync(web, administrator)).ShouldHaveSingleItem();
            alert.Kind.ShouldBe(AlertKind.EndedInDisorder);
            alert.Words.ShouldContain("did not end in order");
            alert.Words.ShouldContain("events hold together, and ");
            (await web.Get<RecordReading>().FindAsync(administrator, new RecordQuestion(WordPart: "alerts.raise"), 0, 10, default)).Total.ShouldBe(1);
        }

        await using (var web = await StartAsync())
        {
            await Task.Delay(TimeSpan.FromSeconds(1));
            (await AlertsAsync(web, administrator)).Count.ShouldBe(1, "said once for each time");
        }
    }

    [Fact]
    public void What_does_not_hold_any_more_is_said_plainly()
    {
        var broken = AfterDisorder.Words(new RecordInspected(new RecordVerification(7, "00", "Event 5 is not as its hash says."), null));
        broken.ShouldContain("does NOT hold: Event 5 is not as its hash says.");
        broken.ShouldContain("Keep the database as it is.");
    }

    public void Dispose()
    {
        SqlitePools.LetGoIn(place);
        place.Delete(recursive: true);
    }

    private Task<RunningWeb> StartAsync() => RunningWeb.StartAsync("--data", place.FullName);

    private static async Task<IReadOnlyList<Alert>> WaitAsync(RunningWeb web, Actor administrator)
    {
        for (var tries = 0; tries < 100; tries++)
        {
            if (await AlertsAsync(web, administrator) is { Count: > 0 } alerts)
            {
                return alerts;
            }

            await Task.Delay(TimeSpan.FromMilliseconds(100));
        }

        return [];
    }

    private static async Task<IReadOnlyList<Alert>> AlertsAsync(RunningWeb web, Actor administrator) => [.. await web.Get<AlertKeeping>().RecentAsync(administrator, 10, default)];
}
