using System.Globalization;

namespace ParticleLims.Pictures.Scales;

/// <summary>
/// The upright scale of the Rosin-Rammler net: ln ln(1/R) of the residue R, labelled in percent of residue. A distribution
/// R = exp(-(x/x')^n) is a straight line of slope n in it over ln x; at x' the residue is 1/e = 36.8 %.
/// </summary>
public sealed class ResidueScale
{
    // The first of them are printed first when room is short. 36.8 is 100/e.
    private static readonly double[] ByImportance = [36.8, 90, 99, 10, 1, 99.9, 80, 95, 0.1, 20, 60, 5, 0.01, 99.99, 98, 70, 50, 30, 2, 0.001];

    private readonly LinearScale _scale;

    /// <summary>A scale that holds the residues, given in percent above 0 and below 100, with a margin.</summary>
    public ResidueScale(IReadOnlyCollection<double> residuePercents, double from, double to)
    {
        ArgumentNullException.ThrowIfNull(residuePercents);
        var heights = residuePercents.Append(90).Append(10).Select(Height).ToList();
        _scale = new LinearScale(heights.Min() - 0.4, heights.Max() + 0.25, from, to);
    }

    /// <summary>The least value of ln ln(1/R) on the scale.</summary>
    public double Lowest => _scale.Lowest;

    /// <summary>The greatest value of ln ln(1/R) on the scale.</summary>
    public double Highest => _scale.Highest;

    /// <summary>ln ln(1/R) for a residue in percent.</summary>
    /// <exception cref="ArgumentOutOfRangeException">Not above 0 and below 100 %.</exception>
    public static double Height(double residuePercent) => residuePercent is > 0 and < 100
        ? Math.Log(-Math.Log(residuePercent / 100))
        : throw new ArgumentOutOfRangeException(nameof(residuePercent), residuePercent, "Only a residue above 0 % and below 100 % has a place in the net.");

    /// <summary>Where a residue, in percent, stands on the surface.</summary>
    public double Position(double residuePercent) => _scale.Position(Height(residuePercent));

    /// <summary>Where a value of ln ln(1/R) stands on the surface.</summary>
    public double PositionOfHeight(double height) => _scale.Position(height);

    /// <summary>The labelled ticks, no two closer than <paramref name="leastDistance"/>, from the largest residue to the smallest.</summary>
    public IReadOnlyList<Tick> Ticks(double leastDistance)
    {
        var kept = new List<double>();
        foreach (var residue in ByImportance.Where(IsInside))
        {
            if (kept.TrueForAll(other => Math.Abs(Position(other) - Position(residue)) >= leastDistance))
            {
                kept.Add(residue);
            }
        }

        return [.. kept.OrderDescending().Select(residue => new Tick(residue, residue.ToString("0.###", CultureInfo.InvariantCulture)))];
    }

    private bool IsInside(double residuePercent) => Height(residuePercent) >= Lowest && Height(residuePercent) <= Highest;
}
