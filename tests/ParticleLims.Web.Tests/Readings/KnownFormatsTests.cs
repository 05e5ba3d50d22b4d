using ParticleLims.Instruments.Connections;
using ParticleLims.Instruments.Readings;
using ParticleLims.Instruments.Simulation;
using ParticleLims.Laboratory.Balances;
using ParticleLims.Laboratory.People;
using ParticleLims.Laboratory.Record;
using ParticleLims.Web.Balances;
using ParticleLims.Web.Readings;
using Shouldly;
using Xunit;

namespace ParticleLims.Web.Tests.Readings;

/// <summary>From the kept row to the line that is read by it, in the real program.</summary>
public sealed class KnownFormatsTests : IAsyncLifetime
{
    private RunningWeb web = null!;

    public async ValueTask InitializeAsync() => web = await (await RunningWeb.StartAsync()).SetUpAsync();

    public ValueTask DisposeAsync() => web.DisposeAsync();

    [Fact]
    public async Task A_format_by_which_the_parser_could_not_read_is_refused_with_what_is_wrong_with_it()
    {
        var bad = FirstReadingFormats.All[0].Card() with { Name = "Bad", Pattern = "(?<value>[0-9]+", Units = "lb" };
        var refusal = await Should.ThrowAsync<RefusedException>(() => web.Get<ReadingFormatKeeping>().AddAsync(web.Administrator, bad, null, default));
        refusal.Code.ShouldBe("format-unusable");
        refusal.Message.ShouldContain("not a regular expression");
        refusal.Message.ShouldContain("'lb'");
    }

    [Fact]
    public async Task A_changed_format_reads_the_next_lines_and_what_is_refused_is_kept_with_its_reason()
    {
        var manager = await web.AddAsync("maria", Role.LaboratoryManager);
        await using var simulated = SimulatedBalance.Start(new SimulatedBalanceOptions { Checksum = false, Serial = "0417", LineEvery = TimeSpan.FromMilliseconds(10) }, TimeProvider.System);
        var (known, lines, keeping) = (web.Get<KnownFormats>(), web.Get<BalanceLines>(), web.Get<ReadingFormatKeeping>());
        await known.RefreshAsync(default);
        var balance = new Balance { Id = Guid.CreateVersion7(), Serial = "0417", Name = "Bench", Place = "Bench", Host = "127.0.0.1", Port = simulated.Port, ReadingFormat = "Plain line" };
        var refused = new RefusedLines(Microsoft.Extensions.Logging.Abstractions.NullLogger<RefusedLines>.Instance);
        refused.Watch(balance.Id, balance.Label, lines.Of(balance)!);
        await UntilAsync(() => lines.Of(balance)!.State.Reading is not null);

        var plain = (await keeping.AllAsync(manager, default)).Single(format => format.Name == "Plain line");
        await keeping.ChangeAsync(manager, plain.Id, plain.Card() with { DecimalComma = true }, "The converter was set to commas", 1, default);
        await known.RefreshAsync(default);
        await UntilAsync(() => lines.Of(balance)!.State.Rejection is { Code: RejectionCode.DecimalMark });
        lines.Of(balance)!.State.Reading.ShouldBeNull("a point is never taken for a comma");
        refused.Of(balance.Id).ShouldContain(line => line.Code == RejectionCode.DecimalMark && line.RawLine.EndsWith("g 0417", StringComparison.Ordinal));
        refused.Of(balance.Id).Count.ShouldBeLessThanOrEqualTo(RefusedLines.Most);
    }

    [Fact]
    public async Task A_balance_whose_format_is_gone_is_not_listened_to()
    {
        await web.Get<KnownFormats>().RefreshAsync(default);
        var balance = new Balance { Id = Guid.CreateVersion7(), Serial = "1", Name = "Bench", Place = "Bench", Host = "127.0.0.1", Port = 4001, ReadingFormat = "Gone" };
        web.Get<BalanceLines>().Of(balance).ShouldBeNull();
        web.Get<BalanceConnections>().Get(balance.Id).ShouldBeNull();
    }

    private static async Task UntilAsync(Func<bool> holds)
    {
        for (var tries = 0; tries < 400 && !holds(); tries++)
        {
            await Task.Delay(25);
        }

        holds().ShouldBeTrue();
    }
}
