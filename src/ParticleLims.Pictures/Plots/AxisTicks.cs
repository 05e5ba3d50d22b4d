using ParticleLims.Pictures.Drawing;
using ParticleLims.Pictures.Scales;

namespace ParticleLims.Pictures.Plots;

/// <summary>Ticks whose labels do not touch, by the estimate of the width of a text.</summary>
internal static class AxisTicks
{
    /// <summary>The ticks of a scale of sizes.</summary>
    public static IReadOnlyList<Tick> Sizes(LogScale across, PlotLayout layout) =>
        across.Ticks((Widest(across.Ticks(0)) + 0.7) * layout.TextSize);

    /// <summary>The width of the widest label, in multiples of the size of the text.</summary>
    public static double Widest(IReadOnlyList<Tick> ticks) => ticks.Count == 0 ? 0 : ticks.Max(tick => TextExtent.Width(tick.Label, 1));

    /// <summary>How many labels an upright scale bears at most.</summary>
    public static int MostUpwards(PlotLayout layout) => layout.Compact ? 4 : 6;

    /// <summary>Percent of mass from nothing to everything.</summary>
    public static IReadOnlyList<Tick> Percents(PlotLayout layout)
    {
        var labelled = layout.Compact ? 25 : 20;
        var step = layout.Compact ? 25 : 10;
        return [.. Enumerable.Range(0, (100 / step) + 1).Select(n => n * step)
            .Select(percent => new Tick(percent, percent % labelled == 0 ? Words.Significant(percent) : string.Empty))];
    }
}
