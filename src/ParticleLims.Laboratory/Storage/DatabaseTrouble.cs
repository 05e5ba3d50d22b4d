namespace ParticleLims.Laboratory.Storage;

/// <summary>What keeps a database from working for a while, none of it the fault of a deed.</summary>
public enum DatabaseTrouble
{
    /// <summary>There is no room on its disk.</summary>
    DiskFull,
    /// <summary>Another program holds it and does not let go.</summary>
    Held,
    /// <summary>It may be read and not written.</summary>
    ReadOnly,
    /// <summary>It cannot be reached, or its disk fails.</summary>
    Unreachable,
}
