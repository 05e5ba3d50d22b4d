using System.Globalization;
using System.Text;
using ParticleLims.Pictures.Drawing;

namespace ParticleLims.Pictures.Svg;

/// <summary>
/// The colours of a picture on a page. Each is a custom property (<c>--plot-curve</c>, <c>--plot-gate</c>, ...) that a theme may
/// set; the fallback is a middle tone with a contrast of at least 3:1 on white and on near-black alike. Text, frame and net
/// follow the page's own text colour.
/// </summary>
public static class SvgPalette
{
    /// <summary>The rules of the classes used in a picture, all under <c>.plot</c>.</summary>
    public static string StyleSheet { get; } = Compose();

    /// <summary>The class of everything drawn in an ink, for example <c>plot-curve</c>.</summary>
    public static string ClassOf(PlotInk ink) => "plot-" + Name(ink);

    internal static string FallbackColour(PlotInk ink) => ink switch
    {
        PlotInk.Curve => "#24788F",
        PlotInk.Replicate => "#7D898E",
        PlotInk.Model => "#9A5F93",
        PlotInk.Gate => "#B7791F",
        PlotInk.Alarm => "#D0473A",
        _ => "currentColor",
    };

    internal static string? Opacity(PlotInk ink) => ink switch
    {
        PlotInk.Grid => "0.16",
        PlotInk.Axis => "0.75",
        _ => null,
    };

    private static string Name(PlotInk ink) => ink switch
    {
        PlotInk.Text => "text",
        PlotInk.Axis => "axis",
        PlotInk.Grid => "grid",
        PlotInk.Curve => "curve",
        PlotInk.Replicate => "replicate",
        PlotInk.Model => "model",
        PlotInk.Gate => "gate",
        PlotInk.Percentile => "percentile",
        PlotInk.Alarm => "alarm",
        _ => throw new ArgumentOutOfRangeException(nameof(ink), ink, "This ink has no class."),
    };

    private static string Compose()
    {
        var rules = new StringBuilder(".plot{max-width:100%;height:auto;font-variant-numeric:tabular-nums}");
        foreach (var ink in Enum.GetValues<PlotInk>())
        {
            var colour = $"var(--{ClassOf(ink)},{FallbackColour(ink)})";
            rules.Append(CultureInfo.InvariantCulture, $".plot .{ClassOf(ink)}{{--plot-ink:{colour}}}");
        }

        rules.Append(".plot .plot-line{stroke:var(--plot-ink);fill:none}");
        rules.Append(".plot .plot-shape,.plot text{fill:var(--plot-ink);stroke:none}");
        rules.Append(".plot .plot-open{stroke:var(--plot-ink);fill:var(--plot-ground,none)}");
        rules.Append(".plot .plot-reading{outline:none;cursor:default}");
        rules.Append(".plot .plot-halo{fill:var(--plot-curve,#24788F);opacity:0}");
        rules.Append(".plot .plot-reading:hover .plot-halo,.plot .plot-reading:focus .plot-halo{opacity:.3}");
        rules.Append(".plot .plot-reading:focus-visible .plot-halo{opacity:.3;stroke:currentColor;stroke-width:2}");
        rules.Append(".plot .plot-reading:hover .plot-shape{opacity:.8}");
        rules.Append(".plot .plot-reading:focus-visible .plot-shape{stroke:currentColor;stroke-width:2}");
        return rules.ToString();
    }
}
