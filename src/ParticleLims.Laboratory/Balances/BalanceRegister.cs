using Microsoft.EntityFrameworkCore;
using ParticleLims.Laboratory.Equipment;
using ParticleLims.Laboratory.Record;
using ParticleLims.Laboratory.Settings;
using ParticleLims.Laboratory.Storage;

namespace ParticleLims.Laboratory.Balances;

/// <summary>The register of balances and their daily checks.</summary>
public sealed class BalanceRegister(WritePath writing, ReadPath reading, TimeProvider clock)
{
    private static readonly DeedKind RegisterDeed = new("balances.register", "Balance registered", Permission.KeepEquipment);
    private static readonly DeedKind MoveDeed = new("balances.change-address", "Balance's way in changed", Permission.KeepEquipment);
    private static readonly DeedKind FormatDeed = new("balances.change-format", "Balance's reading format changed", Permission.KeepEquipment);
    private static readonly DeedKind ProgramMoveDeed = new("balances.follow-simulation", "Simulated balance's address followed", Permission.ActAsProgram);

    /// <summary>Registers a balance; it awaits its commissioning.</summary>
    public Task<Guid> RegisterAsync(Actor actor, BalanceCard card, string? key, CancellationToken cancellation) =>
        writing.CarryOutAsync(new Deed(RegisterDeed, actor, key) { Asked = card }, async (scope, token) =>
        {
            card.Check();
            var serial = card.Serial.Trim();
            await RequireFormatAsync(scope, card.ReadingFormat, token);
            if (await scope.Data.Balances.AnyAsync(balance => balance.Serial == serial, token))
            {
                throw new RefusedException("balance-serial-used", $"There is a balance {serial} already.", "serial");
            }

            var added = card.Add(scope, RegisterDeed.Words, card.Place);
            scope.About(nameof(Balance), added.Id, added.Label);
            return added.Id;
        }, cancellation);

    /// <summary>Changes where a balance's lines come from.</summary>
    public Task<bool> ChangeWayInAsync(Actor actor, Guid id, BalanceWay way, long version, CancellationToken cancellation) =>
        writing.CarryOutAsync(new Deed(MoveDeed, actor), async (scope, token) =>
        {
            var balance = await scope.FindKeptAsync<Balance>(id, "balance", token);
            DeedScope.RequireVersion(balance, version, balance.Label);
            balance.ComeBy(way);
            scope.About(nameof(Balance), balance.Id, balance.Label);
            return true;
        }, cancellation);

    /// <summary>Has a balance's lines read by another format.</summary>
    public Task<bool> ChangeFormatAsync(Actor actor, Guid id, string format, long version, CancellationToken cancellation) =>
        writing.CarryOutAsync(new Deed(FormatDeed, actor), async (scope, token) =>
        {
            var balance = await scope.FindKeptAsync<Balance>(id, "balance", token);
            DeedScope.RequireVersion(balance, version, balance.Label);
            await RequireFormatAsync(scope, format, token);
            balance.ReadingFormat = format;
            scope.About(nameof(Balance), balance.Id, balance.Label);
            return true;
        }, cancellation);

    /// <summary>Notes where the simulated balance of the demonstration answers; done by the program when it had to take another port.</summary>
    public Task<bool> FollowSimulationAsync(Guid id, string host, int port, CancellationToken cancellation) =>
        writing.CarryOutAsync(new Deed(ProgramMoveDeed, Actor.Program), async (scope, token) =>
        {
            if (!(await SettingsKeeping.OfAsync(scope.Data, token)).Demonstration)
            {
                throw new RefusedException("not-demonstration", "Only the demonstration has a simulated balance; here a balance's address is changed by whoever keeps the equipment.");
            }

            var balance = await scope.FindAsync<Balance>(id, "balance", token);
            balance.ComeBy(balance.Way with { WayIn = WayIn.Network, Host = host, Port = port });
            scope.About(nameof(Balance), balance.Id, balance.Label);
            return true;
        }, cancellation);

    /// <summary>The balances whose lines the program listens to: those in service. Asked by the program itself.</summary>
    public Task<List<Balance>> InServiceAsync(CancellationToken cancellation) =>
        reading.ReadAsync(Actor.Program, Permission.ActAsProgram, (data, _, token) => data.Balances.Where(balance => balance.State == EquipmentState.InService).OrderBy(balance => balance.Name).ToListAsync(token), cancellation);

    /// <summary>All balances.</summary>
    public Task<List<Balance>> AllAsync(Actor actor, CancellationToken cancellation) =>
        reading.ReadAsync(actor, Permission.SeeLaboratory, (data, _, token) => data.Balances.OrderBy(balance => balance.Name).ToListAsync(token), cancellation);

    /// <summary>The checks of a balance, newest first, at most a hundred.</summary>
    public Task<List<BalanceCheck>> ChecksAsync(Actor actor, Guid id, CancellationToken cancellation) =>
        reading.ReadAsync(actor, Permission.SeeLaboratory, (data, _, token) => data.BalanceChecks.Where(check => check.BalanceId == id).OrderByDescending(check => check.At).Take(100).ToListAsync(token), cancellation);

    /// <summary>Why a balance must not be used now; null when it may.</summary>
    public Task<string?> UnfitReasonAsync(Actor actor, Guid id, CancellationToken cancellation) =>
        reading.ReadAsync(actor, Permission.SeeLaboratory, async (data, _, token) =>
            await data.Balances.FirstOrDefaultAsync(balance => balance.Id == id, token) is { } balance ? await UnfitReasonAsync(data, balance, clock.GetUtcNow(), token) : "There is no such balance.", cancellation);

    /// <summary>Why a balance must not be used at that instant: its state, its calibration, its repeatability test, or no passed check today.</summary>
    internal static async Task<string?> UnfitReasonAsync(LaboratoryContext data, Balance balance, DateTimeOffset now, CancellationToken cancellation)
    {
        var today = await LocalDayAsync(data, now, cancellation);
        return await StandingReasonAsync(data, balance, today, cancellation) is { } reason
            ? reason
            : await IsCheckedAsync(data, balance, today, cancellation) ? null : NotCheckedToday(balance);
    }

    /// <summary>Why a balance must not be used on a day, whatever its daily check says: its state, its calibration or its repeatability test.</summary>
    internal static async Task<string?> StandingReasonAsync(LaboratoryContext data, Balance balance, DateOnly today, CancellationToken cancellation) =>
        balance.UnfitReason(today) ?? (await RepeatabilityDue.OfAsync(data, balance, cancellation))?.Unfit(balance, today);

    /// <summary>Whether a balance passed its check on a day.</summary>
    internal static Task<bool> IsCheckedAsync(LaboratoryContext data, Balance balance, DateOnly day, CancellationToken cancellation) =>
        data.BalanceChecks.AnyAsync(check => check.BalanceId == balance.Id && check.Day == day && check.Passed, cancellation);

    internal static string NotCheckedToday(Balance balance) => $"The {balance.Label} has not been checked today. Put its check weight on the pan and do the daily check first.";

    private static async Task RequireFormatAsync(DeedScope scope, string format, CancellationToken cancellation)
    {
        if (!await scope.Data.ReadingFormats.AnyAsync(one => one.Name == format, cancellation))
        {
            throw new RefusedException("format-unknown", $"There is no reading format “{format}”. Choose one of those that are kept under Equipment.", "readingFormat");
        }
    }

    private static async Task<DateOnly> LocalDayAsync(LaboratoryContext data, DateTimeOffset now, CancellationToken cancellation) =>
        (await SettingsKeeping.OfAsync(data, cancellation)).LocalDay(now);
}
