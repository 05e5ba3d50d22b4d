namespace ParticleLims.Analysis.Sieves.Tares;

/// <summary>What the weighings of an empty sieve tell (docs/science/tare-history.md).</summary>
public enum TareChange
{
    /// <summary>A slow loss: the cloth wears.</summary>
    Wear,

    /// <summary>A slow gain: particles stay in the apertures.</summary>
    Blinding,

    /// <summary>A loss at once: something broke off, or the sieve was repaired.</summary>
    Damage,

    /// <summary>A gain at once: something stayed on the sieve, or it was wet.</summary>
    Residue,
}
