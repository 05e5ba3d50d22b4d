using Microsoft.EntityFrameworkCore;
using ParticleLims.Laboratory.Equipment;
using ParticleLims.Laboratory.Record;
using ParticleLims.Laboratory.Settings;

namespace ParticleLims.Laboratory.Sieves;

/// <summary>What somebody found at a sieve by the guided list.</summary>
/// <param name="Faults">What was found; none where it is as it should be.</param>
/// <param name="Words">In the inspector's words.</param>
/// <param name="BeginTareAnew">Whether its empty mass has changed for good and is watched anew from here.</param>
/// <param name="Photograph">A picture; null where none was taken.</param>
public sealed record SieveFound(SieveFaults Faults, string Words, bool BeginTareAnew = false, FileGiven? Photograph = null);

/// <summary>An inspection and a cleaning of a sieve, as its page lists them.</summary>
public sealed record SieveCareHistory(IReadOnlyList<SieveInspection> Inspections, IReadOnlyList<SieveCleaning> Cleanings);

/// <summary>Looks after test sieves: the guided inspection, cleaning, and how often.</summary>
public sealed class SieveCare(WritePath writing, ReadPath reading)
{
    private static readonly DeedKind InspectDeed = new("sieves.inspect", "Sieve inspected by the list", Permission.InspectSieves);
    private static readonly DeedKind CleanDeed = new("sieves.clean", "Sieve cleaned", Permission.InspectSieves);
    private static readonly DeedKind PlanDeed = new("sieves.care-plan", "Sieve's intervals changed", Permission.KeepEquipment, ReasonRequired: true);

    /// <summary>
    /// Keeps what was found. A fault takes the sieve out of service at once. Without one it is good for the next interval; a new sieve comes into service by it if whoever keeps the equipment
    /// looked at it; one that is out of service stays out until it is returned. Answers whether it passed.
    /// </summary>
    public Task<bool> InspectAsync(Actor actor, Guid sieveId, SieveFound found, long version, string? key, CancellationToken cancellation) =>
        writing.CarryOutAsync(new Deed(InspectDeed, actor, key) { Asked = new { sieveId, found.Faults, found.Words, found.BeginTareAnew } }, async (scope, token) =>
        {
            var sieve = await FindAsync(scope, sieveId, version, token);
            if (sieve.State == EquipmentState.Scrapped || (found.Faults & ~AllFaults) != SieveFaults.None)
            {
                throw new RefusedException("inspection", sieve.State == EquipmentState.Scrapped ? $"The {sieve.Label} is scrapped; there is nothing to inspect." : "There is no such fault in the list.");
            }

            if (found.Words.Trim().Length < 5)
            {
                throw new RefusedException("inspection-words", "Say in a few words what you looked at and found (at least five letters).", "words");
            }

            var photograph = found.Photograph is { } file ? EquipmentKeeping.Keep(scope, sieve.Id, EquipmentDocumentKind.Photograph, $"Inspection: {(found.Faults == SieveFaults.None ? "no fault found" : found.Faults.Listed())}", file) : null;
            scope.Data.Add(new SieveInspection
            {
                Id = scope.NewId(), SieveId = sieve.Id, At = scope.Now, PersonId = scope.PersonId, PersonName = scope.By.Name, Faults = found.Faults, Words = found.Words.Trim(),
                SignalThen = sieve.TareSignal, TareBegunAnew = found.BeginTareAnew, PhotographId = photograph?.Id,
            });
            EquipmentKeeping.Tell(scope, sieve.Id, InspectDeed.Words, $"Faults: {found.Faults.Listed()}. {found.Words.Trim()}");
            await FollowAsync(scope, sieve, found, token);
            return found.Faults == SieveFaults.None;
        }, cancellation);

    /// <summary>Keeps a cleaning and its way.</summary>
    public Task<bool> CleanAsync(Actor actor, Guid sieveId, CleaningWay way, string words, long version, CancellationToken cancellation) =>
        writing.CarryOutAsync(new Deed(CleanDeed, actor), async (scope, token) =>
        {
            var sieve = await FindAsync(scope, sieveId, version, token);
            scope.Data.Add(new SieveCleaning { Id = scope.NewId(), SieveId = sieve.Id, At = scope.Now, PersonName = scope.By.Name, Way = way, Words = words.Trim() });
            EquipmentKeeping.Tell(scope, sieve.Id, CleanDeed.Words, words.Trim().Length == 0 ? way.Words() : $"{way.Words()}; {words.Trim()}");
            return true;
        }, cancellation);

    /// <summary>Changes how often a sieve is looked at and checked with a reference material. The date of the next inspection is not moved by it; the next inspection counts anew. The check counts from the last one that was passed.</summary>
    public Task<bool> PlanAsync(Actor actor, Guid sieveId, SieveCarePlan plan, string reason, long version, CancellationToken cancellation) =>
        writing.CarryOutAsync(new Deed(PlanDeed, actor, Reason: reason), async (scope, token) =>
        {
            var sieve = await FindAsync(scope, sieveId, version, token);
            plan.PutOn(sieve, scope.Now);
            return true;
        }, cancellation);

    /// <summary>The inspections and cleanings of a sieve, newest first, at most a hundred each.</summary>
    public Task<SieveCareHistory> HistoryAsync(Actor actor, Guid sieveId, CancellationToken cancellation) =>
        reading.ReadAsync(actor, Permission.SeeLaboratory, async (data, _, token) => new SieveCareHistory(
            await data.SieveInspections.Where(one => one.SieveId == sieveId).OrderByDescending(one => one.At).Take(100).ToListAsync(token),
            await data.SieveCleanings.Where(one => one.SieveId == sieveId).OrderByDescending(one => one.At).Take(100).ToListAsync(token)), cancellation);

    private static SieveFaults AllFaults => SieveFaultList.All.Aggregate(SieveFaults.None, (sum, fault) => sum | fault);

    private static async Task FollowAsync(DeedScope scope, TestSieve sieve, SieveFound found, CancellationToken cancellation)
    {
        if (found.Faults != SieveFaults.None)
        {
            if (sieve.State != EquipmentState.OutOfService)
            {
                sieve.Move(EquipmentState.OutOfService, $"inspection found: {found.Faults.Listed()}", EquipmentState.InService, EquipmentState.AwaitingCommissioning);
                EquipmentKeeping.Tell(scope, sieve.Id, "Taken out of service", $"The inspection found: {found.Faults.Listed()}.");
            }

            return;
        }

        (sieve.TareSignal, sieve.TareSignalAt) = (null, null);
        sieve.TareFrom = found.BeginTareAnew ? scope.Now : sieve.TareFrom;
        sieve.InspectedAt = scope.Now;
        sieve.InspectionDueOn = (await SettingsKeeping.OfAsync(scope.Data, cancellation)).LocalDay(scope.Now).AddDays(sieve.InspectEveryDays);
        if (sieve.State == EquipmentState.AwaitingCommissioning && scope.By.May(Permission.KeepEquipment))
        {
            sieve.Move(EquipmentState.InService, null, EquipmentState.AwaitingCommissioning);
            EquipmentKeeping.Tell(scope, sieve.Id, "Commissioned", "By this inspection.");
        }
    }

    private static async Task<TestSieve> FindAsync(DeedScope scope, Guid id, long version, CancellationToken cancellation)
    {
        var sieve = await scope.FindKeptAsync<TestSieve>(id, "sieve", cancellation);
        DeedScope.RequireVersion(sieve, version, sieve.Label);
        scope.About(nameof(TestSieve), sieve.Id, sieve.Label);
        return sieve;
    }
}
