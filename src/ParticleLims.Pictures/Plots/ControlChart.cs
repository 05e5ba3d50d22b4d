namespace ParticleLims.Pictures.Plots;

/// <summary>Values in their order held against lines: the empty mass of one sieve at each use, individuals, or a smoothed series.</summary>
public sealed record ControlChart
{
    /// <summary>The name of the picture.</summary>
    public required string Title { get; init; }

    /// <summary>What the values are, with their unit, for example <c>Empty mass, g</c>.</summary>
    public required string ValueName { get; init; }

    /// <summary>What the points stand for, for example <c>Use</c> or <c>Date</c>.</summary>
    public required string OrderName { get; init; }

    /// <summary>The values, oldest first.</summary>
    public required IReadOnlyList<ControlPoint> Points { get; init; }

    /// <summary>Centre, warning limits and limits.</summary>
    public IReadOnlyList<ControlLine> Lines { get; init; } = [];

    /// <summary>Other values at the same points, drawn faintly, for example the individuals behind a smoothed series.</summary>
    public ControlCompanion? Behind { get; init; }

    /// <summary>Decimals of a value that is read out, 0 to 9.</summary>
    public int Decimals { get; init; } = 3;
}

/// <summary>One value.</summary>
/// <param name="Label">Its date or number, as printed below it.</param>
/// <param name="Value">The value, finite.</param>
/// <param name="Signal">Why it needs eyes, in words; such a point is a triangle in the alarm colour. Null where it does not.</param>
/// <param name="Step">What changed just before it, in words; null where nothing did.</param>
/// <param name="At">When it was; where every point has a time, the distances follow the time.</param>
public sealed record ControlPoint(string Label, double Value, string? Signal = null, string? Step = null, DateTimeOffset? At = null);

/// <summary>What a line stands for.</summary>
public enum ControlLineKind
{
    /// <summary>The centre, or another reference: dashed.</summary>
    Centre,

    /// <summary>A warning limit: dotted.</summary>
    Warning,

    /// <summary>A limit: solid.</summary>
    Limit,
}

/// <summary>A line that the values are held against.</summary>
/// <param name="Label">Its name, for example <c>upper limit</c>.</param>
/// <param name="Kind">What it stands for.</param>
/// <param name="Values">Its value, or one for each point where it changes.</param>
public sealed record ControlLine(string Label, ControlLineKind Kind, IReadOnlyList<double> Values)
{
    /// <summary>A line with the same value everywhere.</summary>
    public static ControlLine Level(string label, ControlLineKind kind, double value) => new(label, kind, [value]);
}

/// <summary>Other values at the same points.</summary>
/// <param name="Label">What they are.</param>
/// <param name="Values">One for each point.</param>
public sealed record ControlCompanion(string Label, IReadOnlyList<double> Values);
