namespace ParticleLims.Pictures.Drawing;

/// <summary>
/// What a plot may draw with. Lengths are in the units of the <see cref="PlotLayout"/> (pixels on a page, points on paper),
/// x to the right, y down. What is drawn later lies on top, except that <see cref="Reading"/>s lie above all else.
/// </summary>
public interface IPlotSurface
{
    /// <summary>A straight line.</summary>
    void Line(PlotPoint from, PlotPoint to, PlotPen pen);

    /// <summary>Straight pieces through the points; fewer than two points draw nothing.</summary>
    void Polyline(IReadOnlyList<PlotPoint> points, PlotPen pen);

    /// <summary>A closed, filled outline without border.</summary>
    void Shape(IReadOnlyList<PlotPoint> outline, PlotInk ink);

    /// <summary>A point's sign, centred; <paramref name="size"/> is its full width.</summary>
    void Marker(PlotPoint centre, PlotMarker marker, double size, PlotInk ink);

    /// <summary>One line of text; <paramref name="at"/> is on its base line.</summary>
    void Text(PlotPoint at, string text, PlotText style);

    /// <summary>Nothing outside the area is drawn until the result is disposed of.</summary>
    IDisposable Clip(PlotArea area);

    /// <summary>What is drawn until the result is disposed of has this name, shown on hovering where the surface can.</summary>
    IDisposable Named(string name);

    /// <summary>As <see cref="Named"/>, and also reachable by keyboard and read out: one measured point.</summary>
    IDisposable Reading(string reading);
}
