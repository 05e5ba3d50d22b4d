namespace ParticleLims.TestLaboratory.Databases;

/// <summary>A running server for tests; disposing it ends it and removes its data.</summary>
internal interface IPostgresServer : IDisposable
{
    /// <summary>How to reach a database on it as its owner.</summary>
    string ConnectionString(string database);
}
