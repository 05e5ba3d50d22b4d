using System.Globalization;
using Microsoft.EntityFrameworkCore;
using ParticleLims.Analysis.Balances;
using ParticleLims.Analysis.Quantities;
using ParticleLims.Laboratory.Equipment;
using ParticleLims.Laboratory.Record;
using ParticleLims.Laboratory.Settings;

namespace ParticleLims.Laboratory.Balances;

/// <summary>What was seen before the daily check.</summary>
/// <param name="Level">Whether the bubble stands in its ring.</param>
/// <param name="WarmedUp">Whether the balance has been on for its warm-up time.</param>
/// <param name="WeightId">The check weight; null where the balance's own nominal weight is used without a register.</param>
public sealed record CheckCircumstances(bool Level, bool WarmedUp, Guid? WeightId)
{
    /// <summary>Level and warmed up; the balance's own nominal weight lies on the pan.</summary>
    public static CheckCircumstances Ready { get; } = new(Level: true, WarmedUp: true, null);
}

/// <summary>Checks and tests balances: the guided daily check from the balance or keyed by hand, the repeatability of ten weighings, and how often that is tested.</summary>
public sealed class BalanceTesting(WritePath writing, ReadPath reading)
{
    private static readonly DeedKind CheckDeed = new("balances.check", "Balance checked", Permission.CheckBalances);
    private static readonly DeedKind KeyDeed = new("balances.check-keyed", "Balance checked, display keyed by hand", Permission.CheckBalances);
    private static readonly DeedKind RepeatDeed = new("balances.repeatability", "Balance's repeatability tested", Permission.KeepEquipment);

    private static readonly DeedKind PlanDeed = new("balances.repeatability-plan", "Balance's interval of the repeatability test changed", Permission.KeepEquipment, ReasonRequired: true);

    /// <summary>The daily check by a reading of the balance. Answers whether it passed; a check that fails takes the balance out of service at once.</summary>
    public Task<bool> CheckAsync(Actor actor, Guid id, BalanceReading shown, CheckCircumstances seen, string? key, CancellationToken cancellation) =>
        writing.CarryOutAsync(new Deed(CheckDeed, actor, key) { Asked = new { id, seen } }, async (scope, token) =>
        {
            var balance = await scope.FindKeptAsync<Balance>(id, "balance", token);
            shown.RequireUsable(balance, scope.Now);
            return await KeepAsync(scope, balance, shown, seen, token);
        }, cancellation);

    /// <summary>The daily check of a balance whose display is read by eye and keyed twice, where the laboratory allows masses to be keyed.</summary>
    public Task<bool> CheckKeyedAsync(Actor actor, Guid id, KeyedMass keyed, CheckCircumstances seen, string? key, CancellationToken cancellation) =>
        writing.CarryOutAsync(new Deed(KeyDeed, actor, key) { Asked = new { id, keyed.First, seen } }, async (scope, token) =>
        {
            if (!(await SettingsKeeping.OfAsync(scope.Data, token)).KeyingAllowed)
            {
                throw new RefusedException("keying-off", "This laboratory takes masses from its balances only. The administrator can allow keying in the settings.");
            }

            if (keyed.Confirmer is not null)
            {
                throw new RefusedException("keyed-twice", "The display of a daily check is keyed twice; nobody confirms it.", "second");
            }

            var balance = await scope.FindKeptAsync<Balance>(id, "balance", token);
            var mass = keyed.Read(balance);
            BalanceReading.RequireWithinCapacity(balance, mass);
            return await KeepAsync(scope, balance, new BalanceReading(balance.Id, mass, KeyedMass.DecimalsOf(balance), Stable: true, $"keyed by hand, twice: {keyed.First.Trim()} g", scope.Now) { WayIn = WayIn.KeyedByHand }, seen, token);
        }, cancellation);

    /// <summary>Keeps the displays of ten weighings or more of one load, the pan empty between them; the balance's repeatability is theirs from now on.</summary>
    public Task<Guid> TestRepeatabilityAsync(Actor actor, Guid id, IReadOnlyList<Mass> displays, long version, string? key, CancellationToken cancellation) =>
        writing.CarryOutAsync(new Deed(RepeatDeed, actor, key) { Asked = new { id, displays } }, async (scope, token) =>
        {
            var balance = await scope.FindKeptAsync<Balance>(id, "balance", token);
            DeedScope.RequireVersion(balance, version, balance.Label);
            scope.About(nameof(Balance), balance.Id, balance.Label);
            Require(balance, displays);
            var deviation = RepeatabilityTest.DeviationOf(displays);
            RequireOneLoad(balance, displays, deviation);
            var test = new RepeatabilityTest
            {
                Id = scope.NewId(), BalanceId = balance.Id, At = scope.Now, PersonName = scope.By.Name, Readings = string.Join(' ', displays.Select(one => one.Micrograms.ToString(CultureInfo.InvariantCulture))),
                Deviation = deviation, MinimumWeight = MinimumWeight.Of(deviation, balance.Readability),
            };
            scope.Data.Add(test);
            balance.Repeatability = deviation;
            EquipmentKeeping.Tell(scope, balance.Id, RepeatDeed.Words, $"{displays.Count.ToString(CultureInfo.InvariantCulture)} weighings: s = {deviation}, minimum weight {test.MinimumWeight}");
            return test.Id;
        }, cancellation);

    /// <summary>Changes after how many days the repeatability is tested again; null for no set day. It counts from the last test, or from now where there was none.</summary>
    public Task<bool> PlanRepeatabilityAsync(Actor actor, Guid id, int? everyDays, string reason, long version, CancellationToken cancellation) =>
        writing.CarryOutAsync(new Deed(PlanDeed, actor, Reason: reason), async (scope, token) =>
        {
            var balance = await scope.FindKeptAsync<Balance>(id, "balance", token);
            DeedScope.RequireVersion(balance, version, balance.Label);
            scope.About(nameof(Balance), balance.Id, balance.Label);
            balance.RepeatEvery(everyDays, scope.Now);
            EquipmentKeeping.Tell(scope, balance.Id, PlanDeed.Words, $"{(everyDays is { } days ? string.Create(CultureInfo.InvariantCulture, $"every {days} days") : "on no set day")}. {reason.Trim()}");
            return true;
        }, cancellation);

    /// <summary>When the repeatability falls due, of every balance that is not scrapped and has an interval.</summary>
    public Task<IReadOnlyDictionary<Guid, RepeatabilityDue>> DuesAsync(Actor actor, CancellationToken cancellation) =>
        reading.ReadAsync<IReadOnlyDictionary<Guid, RepeatabilityDue>>(actor, Permission.SeeLaboratory, async (data, _, token) =>
        {
            var dues = new Dictionary<Guid, RepeatabilityDue>();
            foreach (var balance in await data.Balances.AsNoTracking().Where(one => one.State != EquipmentState.Scrapped && one.RepeatEveryDays != null).ToListAsync(token))
            {
                dues[balance.Id] = (await RepeatabilityDue.OfAsync(data, balance, token))!;
            }

            return dues;
        }, cancellation);

    /// <summary>The repeatability tests of a balance, newest first, at most a hundred.</summary>
    public Task<List<RepeatabilityTest>> TestsAsync(Actor actor, Guid id, CancellationToken cancellation) =>
        reading.ReadAsync(actor, Permission.SeeLaboratory, (data, _, token) => data.Set<RepeatabilityTest>().Where(test => test.BalanceId == id).OrderByDescending(test => test.At).Take(100).ToListAsync(token), cancellation);

    private static async Task<bool> KeepAsync(DeedScope scope, Balance balance, BalanceReading shown, CheckCircumstances seen, CancellationToken cancellation)
    {
        if (!seen.Level || !seen.WarmedUp)
        {
            throw new RefusedException("balance-not-ready", !seen.Level
                ? "The balance does not stand level. Turn its feet until the bubble stands in the ring, then check it."
                : "The balance has not warmed up. Wait for the time in its manual, then check it.", "level");
        }

        var weight = seen.WeightId is { } weightId ? await scope.FindKeptAsync<CheckWeight>(weightId, "check weight", cancellation) : null;
        var today = (await SettingsKeeping.OfAsync(scope.Data, cancellation)).LocalDay(scope.Now);
        if (weight?.UnfitReason(today) is { } unfit)
        {
            throw new RefusedException("weight-unfit", unfit, "weight");
        }

        if (weight is not null && weight.Nominal != balance.CheckWeight)
        {
            throw new RefusedException("weight-other", $"The {balance.Label} is checked with {balance.CheckWeight}, not with the {weight.Label}. Take the right one.", "weight");
        }

        var truth = weight?.ConventionalMass ?? balance.CheckWeight;
        var off = shown.Mass - truth;
        var passed = Mass.FromMicrograms(Math.Abs(off.Micrograms)) <= balance.CheckTolerance;
        scope.Data.Add(new BalanceCheck
        {
            Id = scope.NewId(), BalanceId = balance.Id, At = scope.Now, Day = today, PersonName = scope.By.Name, Nominal = truth, Shown = shown.Mass, Passed = passed, RawLine = shown.RawLine,
            WayIn = shown.WayIn, LevelSeen = seen.Level, WarmedUp = seen.WarmedUp, WeightSerial = weight?.Serial,
        });
        if (!passed)
        {
            balance.Move(EquipmentState.OutOfService, $"daily check {off} off", EquipmentState.InService);
            EquipmentKeeping.Tell(scope, balance.Id, "Taken out of service", $"The daily check was {off} off; {balance.CheckTolerance} is allowed.");
        }

        scope.About(nameof(Balance), balance.Id, balance.Label);
        return passed;
    }

    // A balance that could not even weigh its own capacity well enough has not weighed one load ten times: a display was keyed wrongly, or the load was changed.
    private static void RequireOneLoad(Balance balance, IReadOnlyList<Mass> displays, Mass deviation)
    {
        if (2_000m * deviation.Micrograms > balance.Capacity.Micrograms)
        {
            throw new RefusedException("repeatability-scatter", $"The displays go from {displays.Min()} to {displays.Max()}; by them nothing within the capacity of {balance.Capacity} could be weighed well enough. Look for a display that was written wrongly; if all are right, take the balance out of service.", "displays");
        }
    }

    private static void Require(Balance balance, IReadOnlyList<Mass> displays)
    {
        if (displays.Count is < RepeatabilityTest.Fewest or > 50)
        {
            throw new RefusedException("repeatability-count", string.Create(CultureInfo.InvariantCulture, $"The repeatability is tested by {RepeatabilityTest.Fewest} to 50 weighings; there are {displays.Count}."), "displays");
        }

        foreach (var mass in displays)
        {
            BalanceReading.RequireWithinCapacity(balance, mass);
            if (mass <= Mass.Zero || mass.Micrograms % balance.Readability.Micrograms != 0)
            {
                throw new RefusedException("repeatability-step", $"The balance cannot show {mass}: its smallest step is {balance.Readability}.", "displays");
            }
        }
    }
}
