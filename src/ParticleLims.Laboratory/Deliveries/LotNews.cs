using Microsoft.EntityFrameworkCore;
using ParticleLims.Laboratory.Certificates;
using ParticleLims.Laboratory.EquipmentFailures;
using ParticleLims.Laboratory.Investigations;
using ParticleLims.Laboratory.Lots;
using ParticleLims.Laboratory.Outgoing;
using ParticleLims.Laboratory.Record;

namespace ParticleLims.Laboratory.Deliveries;

/// <summary>Posts the news of lots and cases, whichever deed it was: the state of a lot changed, an investigation or a case of failed equipment was opened.</summary>
internal sealed class LotNews : IFollowsDeeds
{
    /// <inheritdoc />
    public async Task FollowAsync(DeedScope scope, CancellationToken cancellation)
    {
        ArgumentNullException.ThrowIfNull(scope);
        var changes = scope.Data.ChangeTracker;
        var lots = changes.Entries<Lot>().Where(entry => entry.State == EntityState.Modified && entry.Property(lot => lot.State).IsModified).Select(entry => (entry.Entity, Before: entry.Property(lot => lot.State).OriginalValue));
        News[] all =
        [
            .. lots.Select(one => OfLot(one.Entity, one.Before)),
            .. changes.Entries<Investigation>().Where(entry => entry.State == EntityState.Added).Select(entry => OfInvestigation(entry.Entity)),
            .. changes.Entries<EquipmentFailure>().Where(entry => entry.State == EntityState.Added).Select(entry => OfFailure(entry.Entity)),
        ];
        foreach (var news in all)
        {
            await scope.PostChosenAsync(news, cancellation);
        }
    }

    private static News OfLot(Lot lot, LotState before) => new("lot-state", (nameof(Lot), lot.Id), $"Lot {lot.Number} is {lot.State.Words()}", $"Lot {lot.Number} was {before.Words()} and is {lot.State.Words()} now.")
    {
        Facts = new { LotNumber = lot.Number, State = MeasurementsFreezing.Name(lot.State), StateBefore = MeasurementsFreezing.Name(before) },
    };

    private static News OfInvestigation(Investigation one) => new("investigation-opened", (nameof(Investigation), one.Id), $"Investigation {one.Number} of lot {one.LotNumber}", $"Investigation {one.Number} of lot {one.LotNumber} was opened ({one.Kind.Words()}): {one.What}")
    {
        Facts = new { one.Number, Kind = MeasurementsFreezing.Name(one.Kind), one.LotId, one.LotNumber, one.RunNumber, one.What },
    };

    private static News OfFailure(EquipmentFailure one) => new("equipment-failed", (nameof(EquipmentFailure), one.Id), $"Case {one.Number}: equipment failed", $"Case {one.Number} was opened. {one.EquipmentLabel}: {one.What}")
    {
        Facts = new { one.Number, Equipment = one.EquipmentLabel, one.What, GoodUntil = RecordChain.InstantText(one.GoodUntil) },
    };
}
