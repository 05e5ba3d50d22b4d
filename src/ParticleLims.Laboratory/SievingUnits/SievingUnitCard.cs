using ParticleLims.Analysis.Quantities;
using ParticleLims.Laboratory.Equipment;
using ParticleLims.Laboratory.Record;

namespace ParticleLims.Laboratory.SievingUnits;

/// <summary>Where a gauge answers on the network, and in what unit.</summary>
public sealed record GaugeCard(string Host, int Port, PressureUnit Unit)
{
    /// <summary>Refuses a gauge that could not be heard, and one of a unit that has no differential pressure.</summary>
    /// <exception cref="RefusedException">Says what is wrong.</exception>
    internal static void Require(bool isAirJet, GaugeCard? gauge)
    {
        if (gauge is null)
        {
            return;
        }

        if (!isAirJet)
        {
            throw new RefusedException("unit-gauge", "Only an air-jet unit has a differential pressure.", "gaugeHost");
        }

        if (string.IsNullOrWhiteSpace(gauge.Host) || gauge.Host.Length > 255 || gauge.Port is < 1 or > 65_535)
        {
            throw new RefusedException("port", "A gauge answers at a host, and its port lies between 1 and 65535.", "gaugePort");
        }
    }

    /// <summary>Has a unit's gauge answer there, or nowhere.</summary>
    internal static void Put(SievingUnit unit, GaugeCard? gauge)
    {
        (unit.GaugeHost, unit.GaugePort) = (gauge?.Host.Trim(), gauge?.Port);
        unit.GaugeUnit = gauge?.Unit ?? unit.GaugeUnit;
    }
}

/// <summary>A sieving unit as it is registered.</summary>
/// <param name="Serial">The number on its plate.</param>
/// <param name="Name">What people call it.</param>
/// <param name="Place">Where it stands.</param>
/// <param name="IsAirJet">Whether it draws air through the sieve.</param>
/// <param name="Gauge">Its gauge on the network; null for none.</param>
public sealed record SievingUnitCard(string Serial, string Name, string Place, bool IsAirJet, GaugeCard? Gauge = null)
{
    /// <summary>What its maker's plate says.</summary>
    public TypePlate Plate { get; init; } = TypePlate.Blank;

    /// <summary>Refuses, in words, what is no sieving unit.</summary>
    /// <exception cref="RefusedException">Says what is wrong.</exception>
    internal void Check()
    {
        if (Serial.Trim().Length is 0 or > 60 || string.IsNullOrWhiteSpace(Name))
        {
            throw new RefusedException("unit-incomplete", "A sieving unit has a serial number of at most 60 characters and a name.", "serial");
        }

        GaugeCard.Require(IsAirJet, Gauge);
        Plate.Check(runsSoftware: true);
    }

    /// <summary>Adds the unit within a running deed; it awaits its commissioning.</summary>
    /// <param name="scope">The deed.</param>
    /// <param name="what">What its history says of how it came.</param>
    /// <param name="note">The same in more words.</param>
    internal SievingUnit Add(DeedScope scope, string what, string note)
    {
        Check();
        var added = new SievingUnit { Id = scope.NewId(), Serial = Serial.Trim(), Name = Name.Trim(), Place = Place.Trim(), IsAirJet = IsAirJet };
        GaugeCard.Put(added, Gauge);
        Plate.PutOn(added);
        scope.Data.Add(added);
        EquipmentKeeping.Tell(scope, added.Id, what, Plate.Beside(note));
        return added;
    }
}
