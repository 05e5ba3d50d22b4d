using Microsoft.EntityFrameworkCore;

namespace ParticleLims.Laboratory.Tests.Storage;

public sealed class ModelTests
{
    [Theory]
    [EachDatabase]
    public async Task The_migrations_are_the_model(DatabaseKind kind)
    {
        await using var laboratory = await RunningLaboratory.OpenAsync(kind);
        await using var data = laboratory.Data();
        data.Database.HasPendingModelChanges().ShouldBeFalse();
        (await data.Database.GetPendingMigrationsAsync()).ShouldBeEmpty();
    }

    [Fact]
    public async Task Both_databases_have_the_same_migrations_by_name()
    {
        await using var sqlite = await RunningLaboratory.OpenAsync(DatabaseKind.Sqlite);
        await using var postgres = await RunningLaboratory.OpenAsync(DatabaseKind.Postgres);
        Names(sqlite).ShouldBe(Names(postgres));
    }

    private static string[] Names(RunningLaboratory laboratory)
    {
        using var data = laboratory.Data();
        return [.. data.Database.GetMigrations().Select(migration => migration[(migration.IndexOf('_', StringComparison.Ordinal) + 1)..])];
    }
}
