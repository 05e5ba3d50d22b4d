using ParticleLims.Analysis.Quantities;
using ParticleLims.Laboratory.Equipment;
using ParticleLims.Laboratory.Record;

namespace ParticleLims.Laboratory.Sieves;

/// <summary>A sieve as it is registered.</summary>
public sealed record SieveCard(string Serial, Aperture Aperture, int FrameMillimetres, string Standard, string Place)
{
    /// <summary>What its maker's plate says.</summary>
    public TypePlate Plate { get; init; } = TypePlate.Blank;

    /// <summary>Refuses, in words, what is no sieve.</summary>
    /// <exception cref="RefusedException">Says what is missing.</exception>
    internal void Check()
    {
        if (Serial.Trim().Length is 0 or > 60 || FrameMillimetres is < 30 or > 1000)
        {
            throw new RefusedException("sieve-incomplete", "A sieve has a serial number of at most 60 characters and a frame of 30 to 1000 mm.", Serial.Trim().Length is 0 or > 60 ? "serial" : "frameMillimetres");
        }

        Plate.Check(runsSoftware: false);
    }

    /// <summary>Adds the sieve within a running deed; it awaits its commissioning.</summary>
    /// <param name="scope">The deed.</param>
    /// <param name="what">What its history says of how it came.</param>
    /// <param name="note">The same in more words.</param>
    internal TestSieve Add(DeedScope scope, string what, string note)
    {
        Check();
        var added = new TestSieve { Id = scope.NewId(), Serial = Serial.Trim(), Aperture = Aperture, FrameMillimetres = FrameMillimetres, Standard = Standard.Trim(), Place = Place.Trim() };
        Plate.PutOn(added);
        scope.Data.Add(added);
        EquipmentKeeping.Tell(scope, added.Id, what, Plate.Beside(note));
        return added;
    }
}
