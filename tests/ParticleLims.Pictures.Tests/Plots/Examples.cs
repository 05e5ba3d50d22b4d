using ParticleLims.Pictures.Plots;

namespace ParticleLims.Pictures.Tests.Plots;

internal static class Examples
{
    public static IReadOnlyList<CurvePoint> Points { get; } =
        [new(20, 18.42, 0.21), new(32, 38.05, 0.24), new(45, 58.31, 0.25), new(63, 79.9, 0.22), new(90, 95.71, 0.15), new(125, 99.62, 0.1)];

    public static DistributionCurve Full { get; } = new()
    {
        Title = "Lot GC-26-0311, sample S-26-00417",
        Points = Points,
        Others = [new OtherCurve("R-26-00811", [.. Points.Select(point => point with { PassingPercent = point.PassingPercent * 0.98 })])],
        Model = new RosinRammlerLine(48.6, 1.55),
        Gates =
        [
            CurveGate.AtAperture("≥ 97 % at 100 µm", 100, 97, null), CurveGate.AtAperture("15 to 25 % at 20 µm", 20, 15, 25),
            CurveGate.AtPassing("D50 35 to 48 µm", 50, 35, 48), CurveGate.AtPassing("D90 ≤ 95 µm", 90, null, 95),
        ],
        Percentiles = [new("D50 39.2 µm", 50, 39.2), new("D90 79.8 µm", 90, 79.8)],
    };

    public static DistributionCurve Of(params CurvePoint[] points) => new() { Title = "A run", Points = points };
}
