using Microsoft.EntityFrameworkCore.Storage.ValueConversion;
using ParticleLims.Analysis.Quantities;

namespace ParticleLims.Laboratory.Storage;

/// <summary>A mass is stored as whole micrograms.</summary>
internal sealed class MassInMicrograms() : ValueConverter<Mass, long>(mass => mass.Micrograms, stored => Mass.FromMicrograms(stored));

/// <summary>An aperture is stored as whole nanometres.</summary>
internal sealed class ApertureInNanometres() : ValueConverter<Aperture, long>(aperture => aperture.Nanometres, stored => Aperture.FromNanometres(stored));

/// <summary>A pressure is stored as whole pascals.</summary>
internal sealed class PressureInPascals() : ValueConverter<Pressure, long>(pressure => pressure.Pascals, stored => Pressure.FromPascals(stored));

/// <summary>A temperature is stored as whole millikelvins.</summary>
internal sealed class TemperatureInMillikelvins() : ValueConverter<Temperature, long>(temperature => temperature.Millikelvins, stored => Temperature.FromMillikelvins(stored));

/// <summary>Limits and percentages are stored as whole millionths of their unit: exact, and alike on both databases.</summary>
internal sealed class DecimalInMillionths() : ValueConverter<decimal, long>(
    value => decimal.ToInt64(decimal.Round(value * 1_000_000m, MidpointRounding.ToEven)), stored => stored / 1_000_000m);

/// <summary>SQLite has no instant: whole microseconds since 1970-01-01 UTC, the resolution that PostgreSQL keeps.</summary>
internal sealed class InstantInMicroseconds() : ValueConverter<DateTimeOffset, long>(
    instant => (instant.UtcTicks - DateTimeOffset.UnixEpoch.UtcTicks) / TimeSpan.TicksPerMicrosecond,
    stored => DateTimeOffset.UnixEpoch.AddTicks(stored * TimeSpan.TicksPerMicrosecond));

/// <summary>PostgreSQL keeps instants as UTC.</summary>
internal sealed class InstantInUtc() : ValueConverter<DateTimeOffset, DateTime>(
    instant => instant.UtcDateTime, stored => new DateTimeOffset(DateTime.SpecifyKind(stored, DateTimeKind.Utc)));
