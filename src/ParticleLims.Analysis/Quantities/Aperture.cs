using System.Globalization;

namespace ParticleLims.Analysis.Quantities;

/// <summary>The aperture of a sieve in whole nanometres.</summary>
public readonly record struct Aperture : IComparable<Aperture>
{
    private const decimal NanometresPerMicrometre = 1_000m;

    private const long MostExact = 1L << 53;

    private Aperture(long nanometres) => Nanometres = nanometres;

    /// <summary>The aperture in nanometres (nm).</summary>
    public long Nanometres { get; }

    /// <summary>The aperture in micrometres (µm), exactly.</summary>
    public decimal Micrometres => Nanometres / NanometresPerMicrometre;

    /// <summary>An aperture of so many nanometres (nm); greater than zero.</summary>
    /// <exception cref="ArgumentOutOfRangeException">Zero or negative.</exception>
    public static Aperture FromNanometres(long nanometres) => nanometres > 0
        ? new Aperture(nanometres)
        : throw new ArgumentOutOfRangeException(nameof(nanometres), nanometres, "An aperture is greater than 0 nm.");

    /// <summary>An aperture of so many micrometres (µm): above 0, at most 1 000 000 µm, and a whole number of nanometres.</summary>
    /// <exception cref="ArgumentOutOfRangeException">Outside that range, or finer than one nanometre.</exception>
    public static Aperture FromMicrometres(decimal micrometres)
    {
        if (micrometres is <= 0m or > 1_000_000m)
        {
            throw new ArgumentOutOfRangeException(nameof(micrometres), micrometres, "An aperture lies above 0 µm and at most at 1 000 000 µm.");
        }

        var nanometres = micrometres * NanometresPerMicrometre;
        if (nanometres != decimal.Truncate(nanometres))
        {
            throw new ArgumentOutOfRangeException(nameof(micrometres), micrometres, "An aperture is kept to the nanometre: give at most three decimals of a micrometre.");
        }

        return new Aperture((long)nanometres);
    }

    /// <summary>The aperture in µm as the nearest double: a division rounds once, of whole numbers that are doubles without loss.</summary>
    internal double ToMicrometres() => Nanometres <= MostExact ? Nanometres / (double)NanometresPerMicrometre : Ratio.Of(Nanometres, (long)NanometresPerMicrometre).ToDouble();

    /// <summary>Whether the left aperture is finer.</summary>
    public static bool operator <(Aperture left, Aperture right) => left.Nanometres < right.Nanometres;

    /// <summary>Whether the left aperture is coarser.</summary>
    public static bool operator >(Aperture left, Aperture right) => left.Nanometres > right.Nanometres;

    /// <summary>Whether the left aperture is finer or the same.</summary>
    public static bool operator <=(Aperture left, Aperture right) => left.Nanometres <= right.Nanometres;

    /// <summary>Whether the left aperture is coarser or the same.</summary>
    public static bool operator >=(Aperture left, Aperture right) => left.Nanometres >= right.Nanometres;

    /// <inheritdoc />
    public int CompareTo(Aperture other) => Nanometres.CompareTo(other.Nanometres);

    /// <summary>The aperture in micrometres with its unit, culture invariant: <c>63 µm</c>.</summary>
    public override string ToString() => string.Create(CultureInfo.InvariantCulture, $"{Micrometres:0.###} µm");
}
