using ParticleLims.Analysis.ModelFits;
using ParticleLims.Pictures.Drawing;
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
        Model = new FittedLine(Model.RosinRammler, 48.6, 1.55),
        Gates =
        [
            CurveGate.AtAperture("≥ 97 % at 100 µm", 100, 97, null), CurveGate.AtAperture("15 to 25 % at 20 µm", 20, 15, 25),
            CurveGate.AtPassing("D50 35 to 48 µm", 50, 35, 48), CurveGate.AtPassing("D90 ≤ 95 µm", 90, null, 95),
        ],
        Percentiles = [new("D50 39.2 µm", 50, 39.2), new("D90 79.8 µm", 90, 79.8)],
    };

    public static DistributionCurve Of(params CurvePoint[] points) => new() { Title = "A run", Points = points };

    /// <summary>One of each picture, with everything it can show.</summary>
    public static IReadOnlyList<IPlot> All { get; } =
    [
        new DistributionCurvePlot(Full),
        new DistributionCurvePlot(Full with
        {
            Points = [.. Points.Select(point => point with { ApertureStandardUncertaintyMicrometres = point.ApertureMicrometres * 0.02 })],
            Percentiles = [new("D50 39.2 µm", 50, 39.2, new SizeInterval(38.4, 40, "95 %"))],
            Model = new FittedLine(Model.LogNormal, 39, 1.4),
        }),
        NetPlot.RosinRammler(new Net { Title = "Rosin-Rammler net", Points = Points, Lines = [new("line", new FittedLine(Model.RosinRammler, 48.6, 1.55)), new("weighted", new FittedLine(Model.RosinRammler, 47.9, 1.61))] }),
        NetPlot.LogNormal(new Net { Title = "Log-normal net", Points = Points, Lines = [new("line", new FittedLine(Model.LogNormal, 39, 1.4)), new("weighted", new FittedLine(Model.LogNormal, 38.2, 1.5))] }),
        new HistogramPlot(Shares),
        new HistogramPlot(Shares with { IsDensity = true }),
        new ResidualsPlot(new Residuals
        {
            Title = "Residuals",
            Fits =
            [
                new("Rosin-Rammler", [.. Points.Select((point, i) => new ResidualPoint(point.ApertureMicrometres, 0.4 - (0.3 * i)))]),
                new("log-normal", [.. Points.Select((point, i) => new ResidualPoint(point.ApertureMicrometres, (i % 2) - 0.5))]),
                new("Gates-Gaudin-Schuhmann", [.. Points.Select((point, i) => new ResidualPoint(point.ApertureMicrometres, i - 2))]),
            ],
            Uncertainties = [.. Points.Select(point => new ResidualUncertainty(point.ApertureMicrometres, point.StandardUncertaintyPercent!.Value))],
        }),
        new BudgetBarsPlot(new Budget
        {
            Title = "Budget of D50",
            Entries = [new("repeatability of the balance", 4.2), new("aperture of the 45 µm sieve", 61.3), new("taking the test portion", 36.1), new("correlation of the tares", -1.6)],
            Total = "u(D50) = 0.31 µm",
        }),
        new ControlChartPlot(new ControlChart
        {
            Title = "D50 of GC-45",
            ValueName = "D50, µm",
            OrderName = "Date",
            Points = [.. Enumerable.Range(1, 12).Select(day => new ControlPoint($"2026-03-{day:00}", 39 + (day % 3) + (day == 9 ? 4 : 0), day == 9 ? "beyond the upper limit" : null, day == 6 ? "new 45 µm sieve" : null))],
            Lines =
            [
                ControlLine.Level("centre", ControlLineKind.Centre, 40), ControlLine.Level("upper limit", ControlLineKind.Limit, 43), ControlLine.Level("lower limit", ControlLineKind.Limit, 37),
                ControlLine.Level("upper warning", ControlLineKind.Warning, 42), ControlLine.Level("lower warning", ControlLineKind.Warning, 38),
            ],
            Behind = new("individuals", [.. Enumerable.Range(1, 12).Select(day => 38.5 + (day % 4))]),
            Decimals = 1,
        }),
    ];

    private static Histogram Shares => new()
    {
        Title = "Histogram",
        Classes = [new(null, 20, 18.42), new(20, 32, 19.63), new(32, 45, 20.26), new(45, 63, 21.59), new(63, 90, 15.81), new(90, 125, 3.91), new(125, null, 0.38)],
    };
}
