using Microsoft.AspNetCore.Identity.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore;
using ParticleLims.Analysis.Quantities;
using ParticleLims.Laboratory.People;

namespace ParticleLims.Laboratory.Storage;

/// <summary>
/// The laboratory's database. Each feature folder brings its own mapping and its own named table
/// (<c>data.Lots</c>, <c>data.Runs</c>, …) as an extension, so this class knows the conventions only.
/// </summary>
public sealed class LaboratoryContext(DbContextOptions<LaboratoryContext> options) : IdentityUserContext<Person, Guid>(options)
{
    /// <inheritdoc />
    protected override void ConfigureConventions(ModelConfigurationBuilder configurationBuilder)
    {
        ArgumentNullException.ThrowIfNull(configurationBuilder);
        configurationBuilder.Properties<Mass>().HaveConversion<MassInMicrograms>();
        configurationBuilder.Properties<Aperture>().HaveConversion<ApertureInNanometres>();
        configurationBuilder.Properties<Pressure>().HaveConversion<PressureInPascals>();
        configurationBuilder.Properties<Temperature>().HaveConversion<TemperatureInMillikelvins>();
        configurationBuilder.Properties<decimal>().HaveConversion<DecimalInMillionths>();
        configurationBuilder.Properties<Enum>().HaveConversion<string>().HaveMaxLength(60);
        if (Database.ProviderName?.EndsWith("Sqlite", StringComparison.Ordinal) == true)
        {
            configurationBuilder.Properties<DateTimeOffset>().HaveConversion<InstantInMicroseconds>();
        }
        else
        {
            configurationBuilder.Properties<DateTimeOffset>().HaveConversion<InstantInUtc>();
        }
    }

    /// <inheritdoc />
    protected override void OnModelCreating(ModelBuilder builder)
    {
        ArgumentNullException.ThrowIfNull(builder);
        base.OnModelCreating(builder);
        builder.ApplyConfigurationsFromAssembly(typeof(LaboratoryContext).Assembly);
        VersionColumns.Apply(builder);
        SnakeCaseNames.Apply(builder);
    }
}
