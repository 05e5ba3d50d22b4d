namespace ParticleLims.Instruments.Stability;

/// <summary>What is still being waited for before a reading may be taken.</summary>
public enum WaitReason
{
    /// <summary>Nothing: the reading may be taken.</summary>
    Nothing,

    /// <summary>A reading: none has come, or none lately.</summary>
    Reading,

    /// <summary>A line that can be read; the last one was refused.</summary>
    ReadableLine,

    /// <summary>The pan to be cleared after the last weighing.</summary>
    ClearedPan,

    /// <summary>Another load: the balance printed the mass of the last weighing again, which only a person can tell apart.</summary>
    AnotherLoad,

    /// <summary>Something on the pan.</summary>
    Load,

    /// <summary>The balance to call its reading stable.</summary>
    Stability,

    /// <summary>The readings, stable so far, to have held for the set time within the set spread.</summary>
    Hold,
}
