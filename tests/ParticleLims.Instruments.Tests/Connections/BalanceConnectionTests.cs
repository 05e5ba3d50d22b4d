using System.Collections.Concurrent;
using ParticleLims.Analysis.Quantities;
using ParticleLims.Instruments.Connections;
using ParticleLims.Instruments.Readings;
using Shouldly;
using Xunit;

namespace ParticleLims.Instruments.Tests.Connections;

public sealed class BalanceConnectionTests
{
    private static readonly Mass Sieve = Mass.FromGrams(312.345m);

    [Fact]
    public async Task The_mass_on_the_pan_is_read_over_the_network_with_its_line_digits_and_serial()
    {
        await using var balance = Bench.Start();
        await using var connection = Bench.Connect(balance);
        balance.LoadPan(Sieve);

        var state = await connection.UntilStableAt(Sieve);

        var reading = state.Reading.ShouldNotBeNull();
        state.Link.ShouldBe(BalanceLink.Connected);
        reading.Decimals.ShouldBe(4);
        reading.DeviceSerial.ShouldBe("0417");
        reading.RawLine.ShouldStartWith("S +   312.34");
        state.AgeOfLastLine(reading.At + TimeSpan.FromSeconds(3)).ShouldBe(TimeSpan.FromSeconds(3));
    }

    [Fact]
    public async Task A_load_is_seen_unstable_first_and_stable_later()
    {
        await using var balance = Bench.Start(Bench.Hurried with { SpeedFactor = 10 });
        await using var connection = Bench.Connect(balance);
        await connection.UntilStableAt(Mass.Zero);
        var seen = new ConcurrentQueue<BalanceReading>();
        using var subscription = connection.Subscribe(state => seen.Enqueue(state.Reading!));

        balance.LoadPan(Sieve);
        await connection.UntilStableAt(Sieve);

        var sinceLoad = seen.SkipWhile(reading => Math.Abs(reading.Mass.Micrograms) < 1_000).ToList();
        sinceLoad.ShouldContain(reading => !reading.Stable);
        sinceLoad[0].Stable.ShouldBeFalse();
        sinceLoad.Where(reading => reading.Stable).ShouldAllBe(reading => Math.Abs((reading.Mass - Sieve).Micrograms) <= 200);
    }

    [Fact]
    public async Task Overload_gives_a_refusal_and_no_mass_until_the_load_is_off()
    {
        await using var balance = Bench.Start();
        await using var connection = Bench.Connect(balance);
        balance.LoadPan(Mass.FromGrams(1_500m));

        var state = await connection.Until(s => s.Rejection?.Code == RejectionCode.Overload);
        state.Reading.ShouldBeNull();

        balance.ClearPan();
        await connection.UntilStableAt(Mass.Zero);
        connection.State.RejectedLines.ShouldBeGreaterThan(0);
    }

    [Fact]
    public async Task Damaged_cut_and_foreign_lines_are_counted_and_never_become_a_mass()
    {
        await using var balance = Bench.Start(Bench.Hurried with { LineEvery = null });
        await using var connection = Bench.Connect(balance);
        await connection.Until(state => state.Link == BalanceLink.Connected);
        await Bench.WaitForClients(balance, 1);
        var good = PlainLine.Write(Sieve, 4, true, "0417", checksum: true);
        string[] bad = [good.Replace('3', '8'), good[4..], "", "S\0\0", PlainLine.Write(Sieve, 4, true, "0418", true), new('9', 5000)];
        var codes = new ConcurrentQueue<RejectionCode>();
        var readings = 0;
        using var subscription = connection.Subscribe(state =>
        {
            if (state.Rejection is { } refused)
            {
                codes.Enqueue(refused.Code);
            }

            readings += state.Reading is null ? 0 : 1;
        });

        foreach (var line in bad)
        {
            balance.SendRaw(line);
        }

        balance.SendRaw(good);
        (await connection.Until(state => state.Reading is not null)).Reading!.Mass.ShouldBe(Sieve);

        readings.ShouldBe(1);
        connection.State.RejectedLines.ShouldBe(bad.Length);
        codes.ShouldBe(
        [
            RejectionCode.ChecksumWrong, RejectionCode.Unreadable, RejectionCode.Empty, RejectionCode.NotAscii,
            RejectionCode.WrongSerial, RejectionCode.TooLong,
        ]);
    }

    [Fact]
    public async Task A_balance_that_answers_only_when_asked_is_asked()
    {
        await using var balance = Bench.Start(Bench.Hurried with { LineEvery = null });
        balance.LoadPan(Sieve);
        var asking = balance.Options.Format with { RequestCommand = "READ", RequestEvery = TimeSpan.FromMilliseconds(20) };
        await using var connection = new BalanceConnection(
            new BalanceAddress("localhost", balance.Port, asking), TimeProvider.System, Bench.Impatient);

        (await connection.UntilStableAt(Sieve)).Reading.ShouldNotBeNull();
    }

    [Fact]
    public async Task Several_pages_see_the_same_lines_and_one_that_fails_or_leaves_costs_the_others_nothing()
    {
        await using var balance = Bench.Start();
        var failures = 0;
        await using var connection = new BalanceConnection(
            Bench.AddressOf(balance), TimeProvider.System, Bench.Impatient with { SubscriberFailed = _ => failures++ });
        var (first, second, failing) = (new ConcurrentQueue<BalanceState>(), new ConcurrentQueue<BalanceState>(), 0);
        using var one = connection.Subscribe(first.Enqueue);
        using var bad = connection.Subscribe(_ =>
        {
            failing++;
            throw new InvalidOperationException("a page that is gone");
        });
        using var two = connection.Subscribe(second.Enqueue);

        balance.LoadPan(Sieve);
        await connection.UntilStableAt(Sieve);
        two.Dispose();
        await connection.DisposeAsync();

        failing.ShouldBe(1);
        failures.ShouldBe(1);
        second.Count.ShouldBeGreaterThan(2);

        // A line may have come between the two that joined: the second saw what the first saw from then on.
        var joined = first.ToList().FindIndex(state => ReferenceEquals(state, second.First()));
        joined.ShouldBeGreaterThanOrEqualTo(0);
        first.Skip(joined).Take(second.Count).ShouldBe(second);
    }

    [Fact]
    public async Task Lines_can_be_read_as_a_stream_that_ends_with_the_connection()
    {
        await using var balance = Bench.Start();
        var connection = Bench.Connect(balance);
        List<BalanceLine> lines = [];
        await foreach (var line in connection.ReadAsync(TestContext.Current.CancellationToken))
        {
            lines.Add(line);
            if (lines.Count == 5)
            {
                await connection.DisposeAsync();
            }
        }

        lines.Count.ShouldBeGreaterThanOrEqualTo(5);
        lines.Distinct(ReferenceEqualityComparer.Instance).Count().ShouldBe(lines.Count);
        connection.State.Link.ShouldBe(BalanceLink.Lost);
        connection.State.LatestLine.ShouldBeNull();
    }

    [Theory]
    [InlineData("", 1)]
    [InlineData("localhost", 0)]
    [InlineData("localhost", 65_536)]
    public void An_address_that_cannot_work_is_refused(string host, int port) =>
        Should.Throw<ArgumentException>(() => new BalanceConnection(new(host, port, PlainLine.Format), TimeProvider.System));
}
