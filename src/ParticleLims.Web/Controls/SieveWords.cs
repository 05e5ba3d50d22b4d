using ParticleLims.Analysis.Quantities;
using ParticleLims.Analysis.Sieves;

namespace ParticleLims.Web.Controls;

/// <summary>Apertures with the number that ASTM E11 gives the same sieve.</summary>
public static class SieveWords
{
    /// <summary><c>63 µm (No. 230)</c>; without the number where the standard has none.</summary>
    public static string Aperture(Aperture aperture) => E11(aperture) is { } number ? $"{aperture} ({number})" : aperture.ToString();

    /// <summary><c>No. 230</c>; null where the standard has none.</summary>
    public static string? E11(Aperture aperture) => SieveSeries.Find(aperture)?.E11Number is { } number ? $"No. {number}" : null;
}
