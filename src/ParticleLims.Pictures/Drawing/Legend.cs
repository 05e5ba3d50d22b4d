namespace ParticleLims.Pictures.Drawing;

/// <summary>One entry of a legend: a line, a marker or both, and what it means; with neither a remark.</summary>
internal sealed record LegendEntry(string Text, PlotPen? Line, PlotMarker? Marker, PlotInk Ink = PlotInk.Text)
{
    /// <summary>A remark on what the picture does not show.</summary>
    public static LegendEntry Remark(string text) => new(text, null, null);
}

/// <summary>The row or rows above a picture that say what each line and sign means.</summary>
internal sealed class Legend
{
    private readonly List<(LegendEntry Entry, double Left, int Row)> _places = [];
    private readonly PlotLayout _layout;

    public Legend(IEnumerable<LegendEntry> entries, PlotLayout layout, double width)
    {
        _layout = layout;
        var (left, row) = (0d, 0);
        foreach (var entry in entries)
        {
            var needed = Swatch(entry) + TextExtent.Width(entry.Text, layout.TextSize);
            if (left > 0 && left + needed > width)
            {
                (left, row) = (0, row + 1);
            }

            _places.Add((entry, left, row));
            left += needed + layout.TextSize;
        }
    }

    public double Height => _places.Count == 0 ? 0 : (_places[^1].Row + 1) * _layout.LineHeight;

    private double Swatch(LegendEntry entry) => entry.Line is null && entry.Marker is null ? 0 : _layout.TextSize * 2.3;

    public void Draw(IPlotSurface surface, PlotPoint corner)
    {
        var size = _layout.TextSize;
        foreach (var (entry, left, row) in _places)
        {
            var baseLine = corner.Y + (row * _layout.LineHeight) + size;
            var middle = baseLine - (size * 0.34);
            if (entry.Line is { } pen)
            {
                surface.Line(new(corner.X + left, middle), new(corner.X + left + (size * 1.9), middle), pen);
            }

            if (entry.Marker is { } marker)
            {
                surface.Marker(new(corner.X + left + (size * 0.95), middle), marker, _layout.MarkerSize, entry.Ink);
            }

            surface.Text(new(corner.X + left + Swatch(entry), baseLine), entry.Text, new PlotText(size));
        }
    }
}
