using System.Runtime.InteropServices;

namespace ParticleLims.Pictures.Drawing;

/// <summary>A place on the surface: x to the right, y down.</summary>
[StructLayout(LayoutKind.Auto)]
public readonly record struct PlotPoint(double X, double Y);

/// <summary>A rectangle on the surface.</summary>
[StructLayout(LayoutKind.Auto)]
public readonly record struct PlotArea(double Left, double Top, double Width, double Height)
{
    /// <summary>The right edge.</summary>
    public double Right => Left + Width;

    /// <summary>The lower edge.</summary>
    public double Bottom => Top + Height;

    /// <summary>Whether the point lies inside or on the edge.</summary>
    public bool Contains(PlotPoint point) => point.X >= Left && point.X <= Right && point.Y >= Top && point.Y <= Bottom;

    /// <summary>Whether the other rectangle lies wholly inside.</summary>
    public bool Contains(PlotArea other) => other.Left >= Left && other.Right <= Right && other.Top >= Top && other.Bottom <= Bottom;

    /// <summary>Whether the two rectangles share more than an edge.</summary>
    public bool Overlaps(PlotArea other) => Left < other.Right && other.Left < Right && Top < other.Bottom && other.Top < Bottom;

    /// <summary>The four corners, clockwise from the upper left.</summary>
    public IReadOnlyList<PlotPoint> Corners() => [new(Left, Top), new(Right, Top), new(Right, Bottom), new(Left, Bottom)];
}
