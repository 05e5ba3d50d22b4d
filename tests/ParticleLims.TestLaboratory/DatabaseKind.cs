namespace ParticleLims.TestLaboratory;

/// <summary>Which database a test runs on.</summary>
public enum DatabaseKind
{
    /// <summary>A file of its own.</summary>
    Sqlite,

    /// <summary>A database of its own on the server of this test process.</summary>
    Postgres,
}
