namespace ParticleLims.Pictures.Drawing;

/// <summary>The corners of the angular markers, the same on every surface.</summary>
public static class MarkerOutline
{
    /// <summary>Whether the marker is only an outline.</summary>
    public static bool IsOpen(PlotMarker marker) => marker is PlotMarker.Diamond or PlotMarker.Square;

    /// <summary>The corners of a marker; a disc has none.</summary>
    public static IReadOnlyList<PlotPoint> Corners(PlotMarker marker, PlotPoint centre, double size)
    {
        var half = size / 2;
        return marker switch
        {
            PlotMarker.Disc => [],
            PlotMarker.Diamond =>
            [
                new(centre.X, centre.Y - (half * 1.3)), new(centre.X + (half * 1.3), centre.Y),
                new(centre.X, centre.Y + (half * 1.3)), new(centre.X - (half * 1.3), centre.Y),
            ],
            PlotMarker.Triangle =>
            [
                new(centre.X, centre.Y - (half * 1.3)), new(centre.X + (half * 1.2), centre.Y + (half * 0.8)), new(centre.X - (half * 1.2), centre.Y + (half * 0.8)),
            ],
            PlotMarker.Square => new PlotArea(centre.X - half, centre.Y - half, size, size).Corners(),
            _ => throw new ArgumentOutOfRangeException(nameof(marker), marker, "This marker has no outline."),
        };
    }
}
