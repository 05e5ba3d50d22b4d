namespace ParticleLims.Pictures.Drawing;

/// <summary>Finds free places for labels, so that they cover neither each other nor the curve.</summary>
internal sealed class LabelBoard(PlotArea frame)
{
    private readonly List<PlotArea> _taken = [];
    private readonly List<PlotPoint> _drawn = [];

    /// <summary>Marks the straight pieces of a line as occupied.</summary>
    public void Avoid(IReadOnlyList<PlotPoint> line)
    {
        const int Pieces = 24;
        for (var i = 1; i < line.Count; i++)
        {
            for (var step = 0; step <= Pieces; step++)
            {
                var share = (double)step / Pieces;
                _drawn.Add(new(line[i - 1].X + ((line[i].X - line[i - 1].X) * share), line[i - 1].Y + ((line[i].Y - line[i - 1].Y) * share)));
            }
        }
    }

    /// <summary>Marks an area as occupied.</summary>
    public void Avoid(PlotArea area) => _taken.Add(area);

    /// <summary>Draws the label at the first free place; where all are taken by the curve it may lie on it, never on another label.</summary>
    /// <returns>Whether a place was found.</returns>
    public bool Place(IPlotSurface surface, string text, IReadOnlyList<(PlotPoint At, PlotText Style)> places)
    {
        var boxes = places.Select(place => TextExtent.Box(place.At, text, place.Style)).ToList();
        var chosen = boxes.FindIndex(box => IsFree(box) && !_drawn.Exists(box.Contains));
        if (chosen < 0)
        {
            chosen = boxes.FindIndex(IsFree);
        }

        if (chosen < 0)
        {
            return false;
        }

        _taken.Add(boxes[chosen]);
        surface.Text(places[chosen].At, text, places[chosen].Style);
        return true;
    }

    private bool IsFree(PlotArea box) => frame.Contains(box) && !_taken.Exists(box.Overlaps);
}
