using System.Globalization;
using Microsoft.EntityFrameworkCore;
using ParticleLims.Laboratory.Lots;
using ParticleLims.Laboratory.People;
using ParticleLims.Laboratory.Record;
using ParticleLims.Laboratory.Review;
using ParticleLims.Laboratory.Runs;
using ParticleLims.Laboratory.Settings;

namespace ParticleLims.Laboratory.Dispositions;

/// <summary>A rework as it is approved.</summary>
/// <param name="Number">The new lot's number.</param>
/// <param name="QuantityKilograms">What comes out of it, in kilograms; no more than went in.</param>
/// <param name="MadeOn">When it was reworked.</param>
/// <param name="Procedure">How, and by which approved procedure.</param>
public sealed record NewRework(string Number, decimal QuantityKilograms, DateOnly MadeOn, string Procedure);

/// <summary>A rejected lot is reworked into a new one, which has its own number, its own samples and all of the tests again. The rejected one stays rejected.</summary>
public sealed class LotRework(WritePath writing, ReadPath reading)
{
    private static readonly DeedKind ReworkDeed = new("dispositions.rework", "Rework of a rejected lot approved", Permission.DecideLots);

    /// <summary>Approves the rework by signature; answers the new lot, which awaits results.</summary>
    public Task<Guid> ReworkAsync(Actor actor, Guid lotId, NewRework rework, SecretProof proof, CancellationToken cancellation) =>
        writing.CarryOutAsync(new Deed(ReworkDeed, actor) { Asked = rework }, async (scope, token) =>
        {
            var lot = await scope.FindAsync<Lot>(lotId, "lot", token);
            if (lot.State != LotState.Rejected)
            {
                throw new RefusedException("lot-not-rejected", $"Lot {lot.Number} is {lot.State.Words()}. Only a rejected lot is reworked, and a lot is released or rejected as a whole, never in part.");
            }

            await CheckAsync(scope, lot, rework, token);
            await RequireIndependenceAsync(scope, lot, token);
            var added = new Lot
            {
                Id = scope.NewId(), Number = rework.Number.Trim(), SearchNumber = LotReception.SearchForm(rework.Number), ProductId = lot.ProductId, CustomerId = lot.CustomerId,
                Particulars = new LotParticulars(rework.QuantityKilograms, rework.MadeOn, lot.CustomerReference), BookedInAt = scope.Now, ReworkedFromId = lot.Id, ReworkWords = rework.Procedure.Trim(),
            };
            scope.Data.Add(added);

            // The new lot's history begins here; it belongs to the old lot, whose own history so tells of it too.
            scope.About("Lot", added.Id, added.Number);
            scope.Sign(proof, "rework approved", (SignedRework.Kind, added.Id), SignedRework.ContentOf(lot, added));
            return added.Id;
        }, cancellation);

    /// <summary>The lots that a lot was reworked into, oldest first.</summary>
    public Task<List<Lot>> ChildrenAsync(Actor actor, Guid lotId, CancellationToken cancellation) =>
        reading.ReadAsync(actor, Permission.SeeLaboratory, (data, _, token) => data.Lots.Where(lot => lot.ReworkedFromId == lotId).OrderBy(lot => lot.BookedInAt).ToListAsync(token), cancellation);

    /// <summary>The lot that a lot was reworked from; null where it was made anew.</summary>
    public Task<Lot?> ParentAsync(Actor actor, Guid lotId, CancellationToken cancellation) =>
        reading.ReadAsync(actor, Permission.SeeLaboratory, (data, _, token) => data.Lots.FirstOrDefaultAsync(lot => data.Set<Lot>().Any(child => child.Id == lotId && child.ReworkedFromId == lot.Id), token), cancellation);

    private static async Task CheckAsync(DeedScope scope, Lot lot, NewRework rework, CancellationToken cancellation)
    {
        LotReception.RequireNumber(rework.Number);
        await LotReception.RequireUnusedAsync(scope, rework.Number, cancellation);
        var before = await scope.Data.Lots.Where(one => one.ReworkedFromId == lot.Id).Select(one => one.QuantityKilograms).ToListAsync(cancellation);
        var left = lot.QuantityKilograms - before.Sum();
        if (rework.QuantityKilograms <= 0m || rework.QuantityKilograms > left)
        {
            throw new RefusedException("rework-quantity", string.Create(CultureInfo.InvariantCulture, $"Of lot {lot.Number} {left:0.###} kg are there to be reworked; more cannot come out of it."), "quantityKilograms");
        }

        if (rework.Procedure.Trim().Length is < 10 or > 2_000)
        {
            throw new RefusedException("rework-procedure", "Say how the lot is reworked, and by which approved procedure (10 to 2 000 letters).", "procedure");
        }

        if (rework.MadeOn < lot.MadeOn || rework.MadeOn > (await SettingsKeeping.OfAsync(scope.Data, cancellation)).LocalDay(scope.Now))
        {
            throw new RefusedException("rework-day", $"A lot is reworked after the day on which it was made ({lot.MadeOn:yyyy-MM-dd}), and not in the future.", "madeOn");
        }
    }

    private static async Task RequireIndependenceAsync(DeedScope scope, Lot lot, CancellationToken cancellation)
    {
        var onePerson = (await SettingsKeeping.OfAsync(scope.Data, cancellation)).OnePersonLaboratory;
        var runs = await scope.Data.Runs.Where(run => run.LotId == lot.Id).Select(run => run.Id).ToListAsync(cancellation);
        var worked = await SeparationOfDuties.DidAsync(scope, runs, RunsTables.DeedFamily, cancellation) || await SeparationOfDuties.DidAsync(scope, runs, ReviewsTable.DeedFamily, cancellation);
        SeparationOfDuties.Require(scope, onePerson, worked ? scope.PersonId : null, $"worked on or reviewed lot {lot.Number}");
    }
}
