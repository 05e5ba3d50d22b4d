using System.Runtime.InteropServices;

namespace ParticleLims.Pictures.Drawing;

/// <summary>What a stroke or a shape stands for; each surface has its own colour for it.</summary>
public enum PlotInk
{
    /// <summary>Words and numbers.</summary>
    Text,

    /// <summary>The frame and its ticks.</summary>
    Axis,

    /// <summary>The faint net behind the picture.</summary>
    Grid,

    /// <summary>What was measured.</summary>
    Curve,

    /// <summary>Other runs of the same sample.</summary>
    Replicate,

    /// <summary>A fitted line.</summary>
    Model,

    /// <summary>A specification's limit.</summary>
    Gate,

    /// <summary>A characteristic size read from the curve.</summary>
    Percentile,

    /// <summary>A value that needs eyes.</summary>
    Alarm,
}

/// <summary>How a line is broken, so that lines differ without colour too.</summary>
public enum PlotDash
{
    /// <summary>Unbroken.</summary>
    Solid,

    /// <summary>Long strokes.</summary>
    Dashed,

    /// <summary>Dots.</summary>
    Dotted,
}

/// <summary>How a line is drawn.</summary>
/// <param name="Ink">What it stands for.</param>
/// <param name="Width">Its width in the layout's unit.</param>
/// <param name="Dash">How it is broken.</param>
[StructLayout(LayoutKind.Auto)]
public readonly record struct PlotPen(PlotInk Ink, double Width, PlotDash Dash = PlotDash.Solid);
