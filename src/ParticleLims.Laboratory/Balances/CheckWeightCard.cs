using System.Globalization;
using ParticleLims.Analysis.Balances;
using ParticleLims.Analysis.Quantities;
using ParticleLims.Laboratory.Equipment;
using ParticleLims.Laboratory.Record;

namespace ParticleLims.Laboratory.Balances;

/// <summary>A check weight as it is registered.</summary>
public sealed record CheckWeightCard(string Serial, Mass Nominal, WeightClass Class, string Place)
{
    /// <summary>What its maker's plate says.</summary>
    public TypePlate Plate { get; init; } = TypePlate.Blank;

    /// <summary>Refuses, in words, what is no weight of the table.</summary>
    /// <exception cref="RefusedException">Says what is wrong.</exception>
    internal void Check()
    {
        if (Serial.Trim().Length is 0 or > 60)
        {
            throw new RefusedException("weight-incomplete", "A check weight has a serial number of at most 60 characters: the one on it or on its case.", "serial");
        }

        Permitted(Nominal, Class);
        Plate.Check(runsSoftware: false);
    }

    /// <summary>Adds the weight within a running deed; its first certificate brings it into service.</summary>
    /// <param name="scope">The deed.</param>
    /// <param name="what">What its history says of how it came.</param>
    /// <param name="note">The same in more words.</param>
    internal CheckWeight Add(DeedScope scope, string what, string note)
    {
        Check();
        var added = new CheckWeight { Id = scope.NewId(), Serial = Serial.Trim(), Nominal = Nominal, Class = Class, Place = Place.Trim(), ConventionalMass = Nominal, Certificate = string.Empty };
        Plate.PutOn(added);
        scope.Data.Add(added);
        EquipmentKeeping.Tell(scope, added.Id, what, Plate.Beside(note));
        return added;
    }

    /// <summary>The error that a class permits.</summary>
    /// <exception cref="RefusedException">The table has no such mass.</exception>
    internal static Mass Permitted(Mass nominal, WeightClass weightClass) => WeightTolerances.Of(nominal, weightClass)
        ?? throw new RefusedException("weight-nominal", "The table of OIML R 111-1 has no such nominal mass: 1, 2 or 5 times a power of ten, from 1 mg to 5 kg.", "nominal");
}

/// <summary>What a weight's certificate says.</summary>
/// <param name="Number">Its number.</param>
/// <param name="CalibratedOn">The day of the calibration; not in the future.</param>
/// <param name="ConventionalMass">The conventional mass.</param>
/// <param name="ExpandedUncertainty">The expanded uncertainty, coverage factor 2.</param>
/// <param name="ComparedWith">The number of the weight it was compared with.</param>
/// <param name="DueOn">The last day on which it counts.</param>
public sealed record WeightCertificate(string Number, DateOnly CalibratedOn, Mass ConventionalMass, Mass ExpandedUncertainty, string ComparedWith, DateOnly DueOn)
{
    /// <summary>So many years from its calibration a certificate counts at most (common practice, no source): a slip of the year must not make a weight count for ever.</summary>
    public const int MostYears = 10;

    /// <summary>
    /// Refuses what cannot be this weight's certificate. The weight must lie within the permissible error of its class, and the uncertainty must be at most a third of it
    /// (OIML R 111-1:2004, 5.2 and 5.3.1, from memory).
    /// </summary>
    /// <exception cref="RefusedException">Says what is wrong.</exception>
    internal void Check(CheckWeightCard weight, DateOnly today)
    {
        if (string.IsNullOrWhiteSpace(Number) || CalibratedOn > today || DueOn < today)
        {
            throw new RefusedException("weight-certificate", "A certificate has a number, was made on a day that is not in the future, and counts until today at least.", CalibratedOn > today ? "calibratedOn" : "dueOn");
        }

        if (DueOn > CalibratedOn.AddYears(MostYears))
        {
            throw new RefusedException("weight-certificate", $"A certificate counts for {MostYears} years at most from the day of its calibration. Read its last day again.", "dueOn");
        }

        if (string.IsNullOrWhiteSpace(ComparedWith) || string.Equals(ComparedWith.Trim(), weight.Serial.Trim(), StringComparison.OrdinalIgnoreCase))
        {
            throw new RefusedException("weight-on-itself", "Say with which other weight it was compared. A weight is never the standard for itself.", "comparedWith");
        }

        var permitted = CheckWeightCard.Permitted(weight.Nominal, weight.Class);
        var off = Mass.FromMicrograms(Math.Abs((ConventionalMass - weight.Nominal).Micrograms));
        if (off > permitted)
        {
            throw new RefusedException("weight-outside", $"The conventional mass is {off} off nominal; class {weight.Class} permits {permitted}. Check the number, or register it in the class that it keeps.", "conventionalMass");
        }

        if (ExpandedUncertainty <= Mass.Zero || ExpandedUncertainty.Micrograms * 3 > permitted.Micrograms)
        {
            throw new RefusedException("weight-uncertainty", string.Create(CultureInfo.InvariantCulture, $"The expanded uncertainty lies above 0 and at most at a third of the permissible error, {permitted.Micrograms / 3_000m:0.0###} mg."), "uncertainty");
        }
    }

    /// <summary>Enters the certificate within a running deed; a weight that waits for its first comes into service by it.</summary>
    internal void Enter(DeedScope scope, CheckWeight weight, DateOnly today, string what)
    {
        Check(new CheckWeightCard(weight.Serial, weight.Nominal, weight.Class, weight.Place), today);
        var number = Number.Trim();
        scope.Data.Add(new CheckWeightCalibration
        {
            Id = scope.NewId(), WeightId = weight.Id, Certificate = number, CalibratedOn = CalibratedOn, ConventionalMass = ConventionalMass,
            ExpandedUncertainty = ExpandedUncertainty, ComparedWith = ComparedWith.Trim(), DueOn = DueOn, At = scope.Now, PersonName = scope.By.Name,
        });
        (weight.ConventionalMass, weight.Certificate, weight.InspectionDueOn, weight.InspectedAt) = (ConventionalMass, number, DueOn, scope.Now);
        if (weight.State == EquipmentState.AwaitingCommissioning)
        {
            weight.Move(EquipmentState.InService, null, EquipmentState.AwaitingCommissioning);
        }

        EquipmentKeeping.Tell(scope, weight.Id, what, $"{number}: {ConventionalMass}, compared with {ComparedWith.Trim()}");
    }
}
