using System.Runtime.InteropServices;

namespace ParticleLims.Pictures.Plots;

/// <summary>What a distribution curve shows: apertures in µm, passing in percent of mass.</summary>
public sealed record DistributionCurve
{
    /// <summary>The name of the picture, for example the lot and the sample.</summary>
    public required string Title { get; init; }

    /// <summary>The measured points in any order; may be empty while a run has only begun.</summary>
    public required IReadOnlyList<CurvePoint> Points { get; init; }

    /// <summary>By what the standard uncertainties are multiplied for the bars; 2 unless said otherwise.</summary>
    public double CoverageFactor { get; init; } = 2;

    /// <summary>Other runs of the same sample, drawn faintly.</summary>
    public IReadOnlyList<OtherCurve> Others { get; init; } = [];

    /// <summary>The specification's limits.</summary>
    public IReadOnlyList<CurveGate> Gates { get; init; } = [];

    /// <summary>Sizes read from the curve.</summary>
    public IReadOnlyList<PercentileMark> Percentiles { get; init; } = [];

    /// <summary>A fitted model.</summary>
    public FittedLine? Model { get; init; }

    /// <summary>The curve between the points where it does not run straight over ln x; empty where it does.</summary>
    public IReadOnlyList<CurvePoint> Between { get; init; } = [];
}

/// <summary>A measured point.</summary>
/// <param name="ApertureMicrometres">The aperture in µm, above 0.</param>
/// <param name="PassingPercent">What passed, in percent; a value outside 0 to 100 is drawn on the edge and read as it is.</param>
/// <param name="StandardUncertaintyPercent">The standard uncertainty (k = 1) in percentage points, or null.</param>
/// <param name="ApertureStandardUncertaintyMicrometres">The standard uncertainty (k = 1) of the aperture in µm, or null.</param>
[StructLayout(LayoutKind.Auto)]
public readonly record struct CurvePoint(
    double ApertureMicrometres, double PassingPercent, double? StandardUncertaintyPercent = null, double? ApertureStandardUncertaintyMicrometres = null);

/// <summary>Another curve in the background.</summary>
/// <param name="Label">Its name, for example the run's number.</param>
/// <param name="Points">Its points.</param>
public sealed record OtherCurve(string Label, IReadOnlyList<CurvePoint> Points);

/// <summary>
/// A limit, drawn as a gate that the curve should pass through. Exactly one of the two places is given: at an aperture the
/// window is one of passing in percent, at a percentage it is one of sizes in µm. A null bound is open.
/// </summary>
/// <param name="Label">What is printed beside it, for example <c>≥ 97 %</c>.</param>
/// <param name="ApertureMicrometres">The aperture in µm of a window of passing.</param>
/// <param name="PassingPercent">The percentage of a window of sizes.</param>
/// <param name="Lower">The lower bound, in percent or µm.</param>
/// <param name="Upper">The upper bound, in percent or µm.</param>
public sealed record CurveGate(string Label, double? ApertureMicrometres, double? PassingPercent, double? Lower, double? Upper)
{
    /// <summary>A window of passing, in percent, at an aperture in µm.</summary>
    public static CurveGate AtAperture(string label, double micrometres, double? lowerPercent, double? upperPercent) =>
        new(label, micrometres, null, lowerPercent, upperPercent);

    /// <summary>A window of sizes, in µm, at a percentage.</summary>
    public static CurveGate AtPassing(string label, double percent, double? lowerMicrometres, double? upperMicrometres) =>
        new(label, null, percent, lowerMicrometres, upperMicrometres);
}

/// <summary>A size read from the curve.</summary>
/// <param name="Label">What is printed beside it, for example <c>D50</c> or <c>D50 43.2 µm</c>.</param>
/// <param name="PassingPercent">The percentage.</param>
/// <param name="Micrometres">The size in µm.</param>
/// <param name="Interval">Its coverage interval in µm, or null.</param>
public sealed record PercentileMark(string Label, double PassingPercent, double Micrometres, SizeInterval? Interval = null);

/// <summary>An interval of sizes.</summary>
/// <param name="FromMicrometres">Its lower end in µm, above 0.</param>
/// <param name="ToMicrometres">Its upper end in µm.</param>
/// <param name="Coverage">What it covers in words, for example <c>95 %</c>.</param>
public sealed record SizeInterval(double FromMicrometres, double ToMicrometres, string Coverage);
