using Microsoft.EntityFrameworkCore;
using ParticleLims.Laboratory.Record;
using ParticleLims.Laboratory.Settings;

namespace ParticleLims.Laboratory.Lots;

/// <summary>
/// Corrects a slip in what was given with a lot, with a reason; what stood there before stays in the record. Number, product and customer stay: by them the samples were taken and the specification was chosen.
/// A certificate keeps what it said when it was issued; a revision says it anew.
/// </summary>
public sealed class LotCorrection(WritePath writing)
{
    /// <summary>How the codes of corrections begin.</summary>
    internal const string DeedFamily = "lots.correct";

    private static readonly DeedKind CorrectDeed = new("lots.correct", "Lot's particulars corrected", Permission.BookIn, ReasonRequired: true);
    private static readonly DeedKind CorrectDecidedDeed = new("lots.correct-decided", "Particulars of a decided lot corrected", Permission.IssueCertificates, ReasonRequired: true);

    /// <summary>Corrects the particulars of a lot that is not decided yet.</summary>
    /// <exception cref="RefusedException">The lot is decided, nothing is changed, or no lot can be so.</exception>
    public Task<bool> CorrectAsync(Actor actor, Guid lotId, LotParticulars corrected, string reason, long version, CancellationToken cancellation) =>
        CorrectAsync(new Deed(CorrectDeed, actor, Reason: reason), lotId, corrected, version, decided: false, cancellation);

    /// <summary>Corrects the particulars of a decided lot: whoever issues its certificates does it, for they say it.</summary>
    /// <exception cref="RefusedException">The lot is not decided, nothing is changed, or no lot can be so.</exception>
    public Task<bool> CorrectDecidedAsync(Actor actor, Guid lotId, LotParticulars corrected, string reason, long version, CancellationToken cancellation) =>
        CorrectAsync(new Deed(CorrectDecidedDeed, actor, Reason: reason), lotId, corrected, version, decided: true, cancellation);

    private Task<bool> CorrectAsync(Deed deed, Guid lotId, LotParticulars corrected, long version, bool decided, CancellationToken cancellation) =>
        writing.CarryOutAsync(deed, async (scope, token) =>
        {
            var lot = await scope.FindAsync<Lot>(lotId, "lot", token);
            DeedScope.RequireVersion(lot, version, $"Lot {lot.Number}");
            lot.RequireCorrectable(decided);

            var tidied = corrected.Tidied;
            tidied.Require((await SettingsKeeping.OfAsync(scope.Data, token)).LocalDay(scope.Now));
            if (tidied == lot.Particulars)
            {
                throw new RefusedException("nothing-corrected", "Nothing is different from what stands there.");
            }

            await RequireReworksFitAsync(scope, lot, tidied, token);
            lot.Particulars = tidied;
            scope.About("Lot", lot.Id, lot.Number);
            return true;
        }, cancellation);

    private static async Task RequireReworksFitAsync(DeedScope scope, Lot lot, LotParticulars corrected, CancellationToken cancellation)
    {
        var children = await scope.Data.Lots.Where(one => one.ReworkedFromId == lot.Id).Select(one => new { one.Number, one.QuantityKilograms, one.MadeOn }).ToListAsync(cancellation);
        if (children.Sum(one => one.QuantityKilograms) > corrected.QuantityKilograms)
        {
            throw new RefusedException("lot-quantity", string.Create(System.Globalization.CultureInfo.InvariantCulture, $"{children.Sum(one => one.QuantityKilograms):0.###} kg of it were reworked into other lots already; it cannot have weighed less."), "quantityKilograms");
        }

        var before = lot.ReworkedFromId is { } parent ? await scope.Data.Lots.Where(one => one.Id == parent).Select(one => (DateOnly?)one.MadeOn).FirstOrDefaultAsync(cancellation) : null;
        if (corrected.MadeOn < before || children.Exists(one => one.MadeOn < corrected.MadeOn))
        {
            throw new RefusedException("rework-day", "A lot is reworked after the day on which it was made.", "madeOn");
        }
    }
}
