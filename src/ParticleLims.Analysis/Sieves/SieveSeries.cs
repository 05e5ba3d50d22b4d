using System.Collections.Immutable;
using ParticleLims.Analysis.Quantities;

namespace ParticleLims.Analysis.Sieves;

/// <summary>
/// The nominal apertures of ISO 565:1990 from 125 mm to 20 µm with the numbers of ASTM E11, coarsest first. What was seen in print and what
/// comes from memory is told in docs/science/sieve-series.md.
/// </summary>
public static class SieveSeries
{
    private const SieveSeriesMembership R20 = SieveSeriesMembership.R20;
    private const SieveSeriesMembership R40Over3 = SieveSeriesMembership.R40Over3;
    private const SieveSeriesMembership All = SieveSeriesMembership.R20Over3 | R20 | R40Over3;

    /// <summary>All sizes, coarsest first.</summary>
    public static ImmutableArray<SieveSize> Sizes { get; } =
    [
        Size(125000, All, inches: "5"),
        Size(112000, R20),
        Size(106000, R40Over3, inches: "4.24"),
        Size(100000, R20, inches: "4"),
        Size(90000, All, inches: "3 1/2"),
        Size(80000, R20),
        Size(75000, R40Over3, inches: "3"),
        Size(71000, R20),
        Size(63000, All, inches: "2 1/2"),
        Size(56000, R20),
        Size(53000, R40Over3, inches: "2.12"),
        Size(50000, R20, inches: "2"),
        Size(45000, All, inches: "1 3/4"),
        Size(40000, R20),
        Size(37500, R40Over3, inches: "1 1/2"),
        Size(35500, R20),
        Size(31500, All, inches: "1 1/4"),
        Size(28000, R20),
        Size(26500, R40Over3, inches: "1.06"),
        Size(25000, R20, inches: "1"),
        Size(22400, All, inches: "7/8"),
        Size(20000, R20),
        Size(19000, R40Over3, inches: "3/4"),
        Size(18000, R20),
        Size(16000, All, inches: "5/8"),
        Size(14000, R20),
        Size(13200, R40Over3, inches: "0.530"),
        Size(12500, R20, inches: "1/2"),
        Size(11200, All, inches: "7/16"),
        Size(10000, R20),
        Size(9500, R40Over3, inches: "3/8"),
        Size(9000, R20),
        Size(8000, All, inches: "5/16"),
        Size(7100, R20),
        Size(6700, R40Over3, inches: "0.265"),
        Size(6300, R20, inches: "1/4"),
        Size(5600, All, "3 1/2"),
        Size(5000, R20),
        Size(4750, R40Over3, "4"),
        Size(4500, R20),
        Size(4000, All, "5"),
        Size(3550, R20),
        Size(3350, R40Over3, "6"),
        Size(3150, R20),
        Size(2800, All, "7"),
        Size(2500, R20),
        Size(2360, R40Over3, "8"),
        Size(2240, R20),
        Size(2000, All, "10"),
        Size(1800, R20),
        Size(1700, R40Over3, "12"),
        Size(1600, R20),
        Size(1400, All, "14"),
        Size(1250, R20),
        Size(1180, R40Over3, "16"),
        Size(1120, R20),
        Size(1000, All, "18"),
        Size(900, R20),
        Size(850, R40Over3, "20"),
        Size(800, R20),
        Size(710, All, "25"),
        Size(630, R20),
        Size(600, R40Over3, "30"),
        Size(560, R20),
        Size(500, All, "35"),
        Size(450, R20),
        Size(425, R40Over3, "40"),
        Size(400, R20),
        Size(355, All, "45"),
        Size(315, R20),
        Size(300, R40Over3, "50"),
        Size(280, R20),
        Size(250, All, "60"),
        Size(224, R20),
        Size(212, R40Over3, "70"),
        Size(200, R20),
        Size(180, All, "80"),
        Size(160, R20),
        Size(150, R40Over3, "100"),
        Size(140, R20),
        Size(125, All, "120"),
        Size(112, R20),
        Size(106, R40Over3, "140"),
        Size(100, R20),
        Size(90, All, "170"),
        Size(80, R20),
        Size(75, R40Over3, "200"),
        Size(71, R20),
        Size(63, All, "230"),
        Size(56, R20),
        Size(53, R40Over3, "270"),
        Size(50, R20),
        Size(45, All, "325"),
        Size(40, R20),
        Size(38, R40Over3, "400"),
        Size(36, R20),
        Size(32, All, "450"),
        Size(28, R20),
        Size(25, R20, "500"),
        Size(22, R20),
        Size(20, R20, "635"),
    ];

    /// <summary>The standard size of exactly this nominal aperture; null where the standards have none.</summary>
    public static SieveSize? Find(Aperture aperture) => Sizes.FirstOrDefault(size => size.Aperture == aperture);

    /// <summary>The standard size with this number of ASTM E11, as <c>230</c>; null where there is none.</summary>
    public static SieveSize? FindE11(string number) =>
        Sizes.FirstOrDefault(size => string.Equals(size.E11Number, number, StringComparison.Ordinal));

    /// <summary>The sizes of one series, coarsest first.</summary>
    public static ImmutableArray<SieveSize> Of(SieveSeriesMembership series) =>
        [.. Sizes.Where(size => series != SieveSeriesMembership.None && size.Series.HasFlag(series))];

    private static SieveSize Size(long micrometres, SieveSeriesMembership series, string? e11Number = null, string? inches = null) => new()
    {
        Aperture = Aperture.FromNanometres(micrometres * 1_000),
        Series = series,
        E11Number = e11Number,
        E11Inches = inches,
    };
}
