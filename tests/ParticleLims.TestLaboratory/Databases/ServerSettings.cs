namespace ParticleLims.TestLaboratory.Databases;

/// <summary>What a throw-away server is started with: many small databases, and nothing that must outlive a power cut.</summary>
internal static class ServerSettings
{
    public static readonly string[] ForTests =
    [
        "-c", "fsync=off", "-c", "synchronous_commit=off", "-c", "full_page_writes=off", "-c", "max_connections=400", "-c", "shared_buffers=64MB",
    ];
}
