using Npgsql;
using Testcontainers.PostgreSql;

namespace ParticleLims.TestLaboratory.Databases;

/// <summary>A PostgreSQL server in a container. The image is postgres:17-alpine unless PARTICLELIMS_TEST_POSTGRES_IMAGE names another.</summary>
internal sealed class ContainerPostgres : IPostgresServer
{
    private static readonly TimeSpan PullAndStart = TimeSpan.FromMinutes(3);
    private readonly PostgreSqlContainer container;

    private ContainerPostgres(PostgreSqlContainer container) => this.container = container;

    public static async Task<IPostgresServer> StartAsync()
    {
        if (!await DockerEngine.AnswersAsync())
        {
            throw new ServerUnavailableException("no Docker engine answers");
        }

        var image = Environment.GetEnvironmentVariable("PARTICLELIMS_TEST_POSTGRES_IMAGE") ?? "postgres:17-alpine";
        PostgreSqlContainer? starting = null;
        try
        {
            using var limit = new CancellationTokenSource(PullAndStart);
            starting = new PostgreSqlBuilder(image).WithCommand(ServerSettings.ForTests).Build();
            await starting.StartAsync(limit.Token);
            return new ContainerPostgres(starting);
        }
        catch (Exception failure)
        {
            if (starting is not null)
            {
                await starting.DisposeAsync();
            }

            throw new ServerUnavailableException($"the container {image} did not start: {failure.Message}", failure);
        }
    }

    public string ConnectionString(string database) => new NpgsqlConnectionStringBuilder(container.GetConnectionString()) { Database = database, MaxPoolSize = 10 }.ConnectionString;

    // The process is ending: nothing else waits on this thread.
    public void Dispose() => container.DisposeAsync().AsTask().GetAwaiter().GetResult();
}
