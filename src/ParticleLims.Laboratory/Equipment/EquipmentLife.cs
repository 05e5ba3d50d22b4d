using Microsoft.EntityFrameworkCore;
using ParticleLims.Laboratory.Record;
using ParticleLims.Laboratory.Settings;
using ParticleLims.Laboratory.Storage;

namespace ParticleLims.Laboratory.Equipment;

/// <summary>The life of a sieve or a balance after it is registered: into service, out of it by anyone at once, back only by whoever keeps equipment.</summary>
public sealed class EquipmentLife<T>(WritePath writing, ReadPath reading)
    where T : class, IEquipment, IVersioned
{
    private static readonly string Kind = typeof(T).Name;
    private static readonly DeedKind CommissionDeed = new("equipment.commission", "Commissioned", Permission.KeepEquipment);
    private static readonly DeedKind InspectDeed = new("equipment.inspect", "Inspected", Permission.KeepEquipment);
    private static readonly DeedKind StopDeed = new("equipment.out-of-service", "Taken out of service", Permission.StopEquipment, ReasonRequired: true);
    private static readonly DeedKind ReturnDeed = new("equipment.return", "Returned to service", Permission.KeepEquipment, ReasonRequired: true);
    private static readonly DeedKind PlateDeed = new("equipment.correct-plate", "Maker and model corrected", Permission.KeepEquipment, ReasonRequired: true);
    private static readonly DeedKind ScrapDeed = new("equipment.scrap", "Scrapped", Permission.KeepEquipment, ReasonRequired: true);

    /// <summary>Puts a new item into service after its first inspection.</summary>
    public Task<bool> CommissionAsync(Actor actor, Guid id, string evidence, DateOnly dueOn, long version, CancellationToken cancellation) =>
        ChangeUntilAsync(new Deed(CommissionDeed, actor), id, version, (evidence, dueOn), (item, scope) =>
        {
            RequireEvidence(evidence);
            NextDue.RequireCertificate(item, dueOn);
            item.Move(EquipmentState.InService, null, EquipmentState.AwaitingCommissioning);
            (item.InspectionDueOn, item.InspectedAt) = (dueOn, scope.Now);
        }, cancellation);

    /// <summary>Records an inspection or calibration that was passed, and when the next is due. What is scrapped is inspected no more.</summary>
    public Task<bool> InspectAsync(Actor actor, Guid id, string evidence, DateOnly dueOn, long version, CancellationToken cancellation) =>
        ChangeUntilAsync(new Deed(InspectDeed, actor), id, version, (evidence, dueOn), (item, scope) =>
        {
            RequireEvidence(evidence);
            item.RequireKept();
            NextDue.RequireCertificate(item, dueOn);
            (item.InspectionDueOn, item.InspectedAt) = (dueOn, scope.Now);
        }, cancellation);

    /// <summary>Takes an item out of service at once; anyone of the staff may.</summary>
    public Task<bool> StopAsync(Actor actor, Guid id, string reason, long version, CancellationToken cancellation) =>
        ChangeAsync(new Deed(StopDeed, actor, Reason: reason), id, version, reason, (item, _) => item.Move(EquipmentState.OutOfService, reason, EquipmentState.InService, EquipmentState.AwaitingCommissioning), cancellation);

    /// <summary>Puts it back with the evidence that it is fit.</summary>
    public Task<bool> ReturnAsync(Actor actor, Guid id, string evidence, DateOnly dueOn, long version, CancellationToken cancellation) =>
        ChangeUntilAsync(new Deed(ReturnDeed, actor, Reason: evidence), id, version, (evidence, dueOn), (item, scope) =>
        {
            NextDue.RequireCertificate(item, dueOn);
            item.Move(EquipmentState.InService, null, EquipmentState.OutOfService);
            (item.InspectionDueOn, item.InspectedAt) = (dueOn, scope.Now);
        }, cancellation);

    /// <summary>Scraps it; it stays in the register.</summary>
    public Task<bool> ScrapAsync(Actor actor, Guid id, string reason, long version, CancellationToken cancellation) =>
        ChangeAsync(new Deed(ScrapDeed, actor, Reason: reason), id, version, reason, (item, _) => item.Move(EquipmentState.Scrapped, reason, EquipmentState.OutOfService), cancellation);

    /// <summary>Corrects what is written down of its maker's plate; what stood there before stays in its history.</summary>
    public Task<bool> CorrectPlateAsync(Actor actor, Guid id, TypePlate plate, string reason, long version, CancellationToken cancellation) =>
        writing.CarryOutAsync(new Deed(PlateDeed, actor, Reason: reason), async (scope, token) =>
        {
            var item = await scope.FindKeptAsync<T>(id, "piece of equipment", token);
            DeedScope.RequireVersion(item, version, item.Label);
            var before = TypePlate.Of(item);
            if (plate.Trimmed() == before)
            {
                throw new RefusedException("plate-same", $"Of the {item.Label} just that is written down already: {before.Words}.", "maker");
            }

            plate.PutOn(item);
            scope.About(Kind, item.Id, item.Label);
            EquipmentKeeping.Tell(scope, item.Id, PlateDeed.Words, $"{TypePlate.Of(item).Words}; before: {before.Words}. {reason.Trim()}");
            return true;
        }, cancellation);

    /// <summary>What happened to it, newest first.</summary>
    public Task<List<EquipmentEvent>> HistoryAsync(Actor actor, Guid id, CancellationToken cancellation) =>
        reading.ReadAsync(actor, Permission.SeeLaboratory, (data, _, token) => data.EquipmentEvents.Where(one => one.EquipmentId == id).OrderByDescending(one => one.At).ToListAsync(token), cancellation);

    private Task<bool> ChangeUntilAsync(Deed deed, Guid id, long version, (string Evidence, DateOnly DueOn) found, Action<T, DeedScope> change, CancellationToken cancellation) =>
        writing.CarryOutAsync(deed, async (scope, token) =>
        {
            await ChangeAsync(scope, id, version, found.Evidence, change, token);
            NextDue.Require(found.DueOn, (await SettingsKeeping.OfAsync(scope.Data, token)).LocalDay(scope.Now));
            return true;
        }, cancellation);

    private Task<bool> ChangeAsync(Deed deed, Guid id, long version, string note, Action<T, DeedScope> change, CancellationToken cancellation) =>
        writing.CarryOutAsync(deed, async (scope, token) =>
        {
            await ChangeAsync(scope, id, version, note, change, token);
            return true;
        }, cancellation);

    private static async Task ChangeAsync(DeedScope scope, Guid id, long version, string note, Action<T, DeedScope> change, CancellationToken cancellation)
    {
        var item = await scope.FindAsync<T>(id, "piece of equipment", cancellation);
        DeedScope.RequireVersion(item, version, item.Label);
        change(item, scope);
        scope.About(Kind, item.Id, item.Label);
        EquipmentKeeping.Tell(scope, item.Id, scope.Deed.Kind.Words, note);
    }

    private static void RequireEvidence(string evidence)
    {
        if (string.IsNullOrWhiteSpace(evidence) || evidence.Trim().Length < 5)
        {
            throw new RefusedException("evidence-missing", "Say on what evidence: the document's number, or what was looked at and found.", "evidence");
        }
    }
}
