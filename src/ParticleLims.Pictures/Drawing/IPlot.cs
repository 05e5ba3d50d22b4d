namespace ParticleLims.Pictures.Drawing;

/// <summary>A picture described once and drawn on any surface: SVG for the page, vectors for the paper.</summary>
public interface IPlot
{
    /// <summary>The name of the picture, one line.</summary>
    string Title { get; }

    /// <summary>What the picture shows in words and numbers, for those who cannot see it.</summary>
    string Description { get; }

    /// <summary>The numbers of the picture, for the table beside it and for a file.</summary>
    PlotTable Numbers { get; }

    /// <summary>Draws the picture into the rectangle from (0, 0) to the layout's width and height.</summary>
    void Draw(IPlotSurface surface, PlotLayout layout);
}
