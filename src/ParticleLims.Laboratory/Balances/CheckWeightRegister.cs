using Microsoft.EntityFrameworkCore;
using ParticleLims.Laboratory.Equipment;
using ParticleLims.Laboratory.Record;
using ParticleLims.Laboratory.Settings;

namespace ParticleLims.Laboratory.Balances;

/// <summary>The register of check weights and their certificates.</summary>
public sealed class CheckWeightRegister(WritePath writing, ReadPath reading)
{
    private static readonly DeedKind RegisterDeed = new("check-weights.register", "Check weight registered", Permission.KeepEquipment);
    private static readonly DeedKind CalibrateDeed = new("check-weights.calibrate", "Check weight's certificate entered", Permission.KeepEquipment);

    /// <summary>Registers a weight; its first certificate brings it into service.</summary>
    public Task<Guid> RegisterAsync(Actor actor, CheckWeightCard card, string? key, CancellationToken cancellation) =>
        writing.CarryOutAsync(new Deed(RegisterDeed, actor, key) { Asked = card }, async (scope, token) =>
        {
            card.Check();
            var serial = card.Serial.Trim();
            if (await scope.Data.CheckWeights.AnyAsync(weight => weight.Serial == serial, token))
            {
                throw new RefusedException("weight-serial-used", $"There is a check weight {serial} already.", "serial");
            }

            var added = card.Add(scope, RegisterDeed.Words, card.Place);
            scope.About(nameof(CheckWeight), added.Id, added.Label);
            return added.Id;
        }, cancellation);

    /// <summary>Enters a certificate; it must be one that the weight can have.</summary>
    public Task<bool> CalibrateAsync(Actor actor, Guid weightId, WeightCertificate certificate, long version, CancellationToken cancellation) =>
        writing.CarryOutAsync(new Deed(CalibrateDeed, actor), async (scope, token) =>
        {
            var weight = await scope.FindKeptAsync<CheckWeight>(weightId, "check weight", token);
            DeedScope.RequireVersion(weight, version, weight.Label);
            scope.About(nameof(CheckWeight), weight.Id, weight.Label);
            certificate.Enter(scope, weight, (await SettingsKeeping.OfAsync(scope.Data, token)).LocalDay(scope.Now), CalibrateDeed.Words);
            return true;
        }, cancellation);

    /// <summary>All check weights, the smallest first.</summary>
    public Task<List<CheckWeight>> AllAsync(Actor actor, CancellationToken cancellation) =>
        reading.ReadAsync(actor, Permission.SeeLaboratory, (data, _, token) => data.CheckWeights.OrderBy(weight => weight.Nominal).ThenBy(weight => weight.Serial).ToListAsync(token), cancellation);

    /// <summary>The certificates of a weight, newest first.</summary>
    public Task<List<CheckWeightCalibration>> CalibrationsAsync(Actor actor, Guid weightId, CancellationToken cancellation) =>
        reading.ReadAsync(actor, Permission.SeeLaboratory, (data, _, token) => data.Set<CheckWeightCalibration>().Where(one => one.WeightId == weightId).OrderByDescending(one => one.At).ToListAsync(token), cancellation);
}
