using ParticleLims.Analysis.Quantities;
using ParticleLims.Laboratory.Equipment;
using ParticleLims.Laboratory.Record;

namespace ParticleLims.Laboratory.Balances;

/// <summary>A balance as it is registered.</summary>
public sealed record BalanceCard(
    string Serial, string Name, string Place, Mass Readability, Mass Capacity, Mass Repeatability, BalanceWay Way, string ReadingFormat, Mass CheckWeight, Mass CheckTolerance)
{
    /// <summary>What its maker's plate says.</summary>
    public TypePlate Plate { get; init; } = TypePlate.Blank;

    /// <summary>After how many days its repeatability is tested again, 1 to 1100; null where no day falls due.</summary>
    public int? RepeatEveryDays { get; init; }

    /// <summary>Refuses, in words, a balance that could not weigh, be checked or be heard.</summary>
    /// <exception cref="RefusedException">Says what is wrong.</exception>
    internal void Check()
    {
        var serial = Serial.Trim();
        if (serial.Length is 0 or > 60 || string.IsNullOrWhiteSpace(Name) || Readability <= Mass.Zero || Capacity <= Readability)
        {
            throw new RefusedException("balance-incomplete", "A balance has a serial number, a name, a readability above 0 g and a capacity above that.", "serial");
        }

        if (Repeatability < Mass.Zero || CheckTolerance <= Mass.Zero || CheckWeight <= Mass.Zero || CheckWeight > Capacity)
        {
            throw new RefusedException("balance-check", "The repeatability is not negative; the check weight lies above 0 g and within the capacity, and its tolerance above 0 g.", "checkWeight");
        }

        Way.Check();
        Plate.Check(runsSoftware: true);
        RepeatabilityDue.Require(RepeatEveryDays);
    }

    /// <summary>Adds the balance within a running deed; it awaits its commissioning. Its reading format has been looked for.</summary>
    /// <param name="scope">The deed.</param>
    /// <param name="what">What its history says of how it came.</param>
    /// <param name="note">The same in more words.</param>
    internal Balance Add(DeedScope scope, string what, string note)
    {
        Check();
        var added = new Balance
        {
            Id = scope.NewId(), Serial = Serial.Trim(), Name = Name.Trim(), Place = Place.Trim(), Readability = Readability, Capacity = Capacity, Repeatability = Repeatability,
            Host = string.Empty, ReadingFormat = ReadingFormat, CheckWeight = CheckWeight, CheckTolerance = CheckTolerance,
        };
        added.ComeBy(Way);
        added.RepeatEvery(RepeatEveryDays, scope.Now);
        Plate.PutOn(added);
        scope.Data.Add(added);
        EquipmentKeeping.Tell(scope, added.Id, what, Plate.Beside(note));
        return added;
    }
}
