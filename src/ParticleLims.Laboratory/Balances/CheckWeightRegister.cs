using System.Globalization;
using Microsoft.EntityFrameworkCore;
using ParticleLims.Analysis.Balances;
using ParticleLims.Analysis.Quantities;
using ParticleLims.Laboratory.Equipment;
using ParticleLims.Laboratory.Record;
using ParticleLims.Laboratory.Settings;

namespace ParticleLims.Laboratory.Balances;

/// <summary>A check weight as it is registered.</summary>
public sealed record CheckWeightCard(string Serial, Mass Nominal, WeightClass Class, string Place);

/// <summary>What a weight's certificate says.</summary>
/// <param name="Number">Its number.</param>
/// <param name="CalibratedOn">The day of the calibration; not in the future.</param>
/// <param name="ConventionalMass">The conventional mass.</param>
/// <param name="ExpandedUncertainty">The expanded uncertainty, coverage factor 2.</param>
/// <param name="ComparedWith">The number of the weight it was compared with.</param>
/// <param name="DueOn">The last day on which it counts.</param>
public sealed record WeightCertificate(string Number, DateOnly CalibratedOn, Mass ConventionalMass, Mass ExpandedUncertainty, string ComparedWith, DateOnly DueOn);

/// <summary>The register of check weights and their certificates.</summary>
public sealed class CheckWeightRegister(WritePath writing, ReadPath reading)
{
    private static readonly DeedKind RegisterDeed = new("check-weights.register", "Check weight registered", Permission.KeepEquipment);
    private static readonly DeedKind CalibrateDeed = new("check-weights.calibrate", "Check weight's certificate entered", Permission.KeepEquipment);

    /// <summary>Registers a weight; its first certificate brings it into service.</summary>
    public Task<Guid> RegisterAsync(Actor actor, CheckWeightCard card, string? key, CancellationToken cancellation) =>
        writing.CarryOutAsync(new Deed(RegisterDeed, actor, key) { Asked = card }, async (scope, token) =>
        {
            var serial = card.Serial.Trim();
            if (serial.Length is 0 or > 60)
            {
                throw new RefusedException("weight-incomplete", "A check weight has a serial number of at most 60 characters: the one on it or on its case.", "serial");
            }

            Permitted(card.Nominal, card.Class);
            if (await scope.Data.CheckWeights.AnyAsync(weight => weight.Serial == serial, token))
            {
                throw new RefusedException("weight-serial-used", $"There is a check weight {serial} already.", "serial");
            }

            var added = new CheckWeight { Id = scope.NewId(), Serial = serial, Nominal = card.Nominal, Class = card.Class, Place = card.Place.Trim(), ConventionalMass = card.Nominal, Certificate = string.Empty };
            scope.Data.Add(added);
            EquipmentKeeping.Tell(scope, added.Id, RegisterDeed.Words, card.Place);
            scope.About(nameof(CheckWeight), added.Id, added.Label);
            return added.Id;
        }, cancellation);

    /// <summary>
    /// Enters a certificate. The weight must lie within the permissible error of its class, and the uncertainty must be at most a third of it (OIML R 111-1:2004, 5.2 and 5.3.1, from memory).
    /// </summary>
    public Task<bool> CalibrateAsync(Actor actor, Guid weightId, WeightCertificate certificate, long version, CancellationToken cancellation) =>
        writing.CarryOutAsync(new Deed(CalibrateDeed, actor), async (scope, token) =>
        {
            var weight = await scope.FindAsync<CheckWeight>(weightId, "check weight", token);
            DeedScope.RequireVersion(weight, version, weight.Label);
            scope.About(nameof(CheckWeight), weight.Id, weight.Label);
            Check(weight, certificate, (await SettingsKeeping.OfAsync(scope.Data, token)).LocalDay(scope.Now));
            scope.Data.Add(new CheckWeightCalibration
            {
                Id = scope.NewId(), WeightId = weight.Id, Certificate = certificate.Number.Trim(), CalibratedOn = certificate.CalibratedOn, ConventionalMass = certificate.ConventionalMass,
                ExpandedUncertainty = certificate.ExpandedUncertainty, ComparedWith = certificate.ComparedWith.Trim(), DueOn = certificate.DueOn, At = scope.Now, PersonName = scope.By.Name,
            });
            (weight.ConventionalMass, weight.Certificate, weight.InspectionDueOn, weight.InspectedAt) = (certificate.ConventionalMass, certificate.Number.Trim(), certificate.DueOn, scope.Now);
            if (weight.State == EquipmentState.AwaitingCommissioning)
            {
                weight.Move(EquipmentState.InService, null, EquipmentState.AwaitingCommissioning);
            }

            EquipmentKeeping.Tell(scope, weight.Id, CalibrateDeed.Words, $"{certificate.Number.Trim()}: {certificate.ConventionalMass}, compared with {certificate.ComparedWith.Trim()}");
            return true;
        }, cancellation);

    /// <summary>All check weights, the smallest first.</summary>
    public Task<List<CheckWeight>> AllAsync(Actor actor, CancellationToken cancellation) =>
        reading.ReadAsync(actor, Permission.SeeLaboratory, (data, _, token) => data.CheckWeights.OrderBy(weight => weight.Nominal).ThenBy(weight => weight.Serial).ToListAsync(token), cancellation);

    /// <summary>The certificates of a weight, newest first.</summary>
    public Task<List<CheckWeightCalibration>> CalibrationsAsync(Actor actor, Guid weightId, CancellationToken cancellation) =>
        reading.ReadAsync(actor, Permission.SeeLaboratory, (data, _, token) => data.Set<CheckWeightCalibration>().Where(one => one.WeightId == weightId).OrderByDescending(one => one.At).ToListAsync(token), cancellation);

    private static void Check(CheckWeight weight, WeightCertificate certificate, DateOnly today)
    {
        if (string.IsNullOrWhiteSpace(certificate.Number) || certificate.CalibratedOn > today || certificate.DueOn < today)
        {
            throw new RefusedException("weight-certificate", "A certificate has a number, was made on a day that is not in the future, and counts until today at least.", certificate.CalibratedOn > today ? "calibratedOn" : "dueOn");
        }

        if (string.IsNullOrWhiteSpace(certificate.ComparedWith) || string.Equals(certificate.ComparedWith.Trim(), weight.Serial, StringComparison.OrdinalIgnoreCase))
        {
            throw new RefusedException("weight-on-itself", "Say with which other weight it was compared. A weight is never the standard for itself.", "comparedWith");
        }

        var permitted = Permitted(weight.Nominal, weight.Class);
        var off = Mass.FromMicrograms(Math.Abs((certificate.ConventionalMass - weight.Nominal).Micrograms));
        if (off > permitted)
        {
            throw new RefusedException("weight-outside", $"The conventional mass is {off} off nominal; class {weight.Class} permits {permitted}. Check the number, or register it in the class that it keeps.", "conventionalMass");
        }

        if (certificate.ExpandedUncertainty <= Mass.Zero || certificate.ExpandedUncertainty.Micrograms * 3 > permitted.Micrograms)
        {
            throw new RefusedException("weight-uncertainty", string.Create(CultureInfo.InvariantCulture, $"The expanded uncertainty lies above 0 and at most at a third of the permissible error, {permitted.Micrograms / 3_000m:0.0###} mg."), "uncertainty");
        }
    }

    private static Mass Permitted(Mass nominal, WeightClass weightClass) => WeightTolerances.Of(nominal, weightClass)
        ?? throw new RefusedException("weight-nominal", "The table of OIML R 111-1 has no such nominal mass: 1, 2 or 5 times a power of ten, from 1 mg to 5 kg.", "nominal");
}
