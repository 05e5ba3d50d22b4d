using Microsoft.Extensions.DependencyInjection;
using Microsoft.Extensions.DependencyInjection.Extensions;
using Microsoft.Extensions.Hosting;
using Microsoft.Extensions.Time.Testing;
using ParticleLims.Laboratory.People;
using ParticleLims.Laboratory.Record;
using ParticleLims.Laboratory.Runs;
using ParticleLims.Laboratory.Settings;
using ParticleLims.Web.Shell;
using Shouldly;
using Xunit;

namespace ParticleLims.Web.Tests.Terminals;

/// <summary>A terminal that nobody touches locks by the server's clock, whatever its browser says.</summary>
public sealed class IdleLockTests : IAsyncLifetime
{
    private readonly FakeTimeProvider clock = new(DateTimeOffset.UtcNow);
    private BenchWeb bench = null!;

    public async ValueTask InitializeAsync() => bench = await BenchWeb.StartAsync(services => services.Replace(ServiceDescriptor.Singleton<TimeProvider>(clock)));

    public ValueTask DisposeAsync() => bench.DisposeAsync();

    private IdleLock Lock => bench.Web.Services.GetServices<IHostedService>().OfType<IdleLock>().Single();

    [Fact]
    public async Task It_locks_five_minutes_after_the_last_touch_and_the_run_stands_where_it_was()
    {
        using var visitor = await bench.EnrolledAsync("Bench 1");
        var small = bench.Small;
        var lot = await small.BookInAsync(small.Calcite);
        await small.Bench().StartAsync(lot.RunId, small.Calcite);
        await BenchWeb.SignOnAsync(visitor, small.People.Technician);
        await using var screen = await OpenScreen.OpenAsync(bench.Web, visitor);
        using var page = await visitor.OpenAsync("/bench");
        var session = screen.Actor.SessionId!.Value;

        clock.Advance(TimeSpan.FromMinutes(4));
        bench.Web.Get<SessionWatch>().Touch(session);
        clock.Advance(TimeSpan.FromMinutes(5) - TimeSpan.FromSeconds(1));
        await Lock.LockAsync(default);
        (await OverAsync(session)).ShouldBeNull();
        clock.Advance(TimeSpan.FromSeconds(1));
        await Lock.LockAsync(default);
        (await OverAsync(session)).ShouldBe(SessionEnd.Idle);
        await screen.Closed.WaitAsync(TimeSpan.FromSeconds(1), TestContext.Current.CancellationToken);

        bench.Web.Get<SessionWatch>().Touch(session);
        var step = (await small.Bench().ViewAsync(lot.RunId)).Next!;
        await Should.ThrowAsync<SessionOverException>(() => new TestLaboratory.SmallLaboratories.TestBench(small, screen.Actor).WeighAsync(lot.RunId, step, 260.123m));
        var run = (await small.Bench().ViewAsync(lot.RunId)).Run;
        (run.State, run.Weighings.Count).ShouldBe((RunState.InProgress, 0));
    }

    [Fact]
    public async Task Another_time_that_is_set_holds_at_once()
    {
        using var visitor = await bench.EnrolledAsync("Bench 1");
        await BenchWeb.SignOnAsync(visitor, bench.Small.People.Technician);
        await using var screen = await OpenScreen.OpenAsync(bench.Web, visitor);
        using var page = await visitor.OpenAsync("/bench");
        clock.Advance(TimeSpan.FromSeconds(61));
        await Lock.LockAsync(default);
        (await OverAsync(screen.Actor.SessionId!.Value)).ShouldBeNull();
        await bench.Small.Get<SettingsKeeping>().ChangeTerminalRulesAsync(bench.Small.People.Administrator.Actor, new TerminalRules(false, 1), "The room is open to visitors", 1, default);
        await Lock.LockAsync(default);
        (await OverAsync(screen.Actor.SessionId!.Value)).ShouldBe(SessionEnd.Idle);
    }

    [Fact]
    public async Task A_desk_that_is_no_shared_terminal_is_not_locked()
    {
        using var visitor = new Tests.Shell.Visitor(bench.Web);
        var person = bench.Small.People.QualityManager;
        using var signedOn = await visitor.SignOnAsync(person.SignOnName, person.Password);
        await using var screen = await OpenScreen.OpenAsync(bench.Web, visitor);
        using var page = await visitor.OpenAsync("/decisions");
        clock.Advance(TimeSpan.FromHours(2));
        await Lock.LockAsync(default);
        (await OverAsync(screen.Actor.SessionId!.Value)).ShouldBeNull();
    }

    private async Task<SessionEnd?> OverAsync(Guid session) => (await bench.Small.Get<Sessions>().LookAsync(session, default))!.Over;
}
