namespace ParticleLims.Pictures.Drawing;

/// <summary>The sign of a point; the shapes differ so that a black and white print can be read.</summary>
public enum PlotMarker
{
    /// <summary>A filled disc: a measured point.</summary>
    Disc,

    /// <summary>An open diamond: a size read from the curve.</summary>
    Diamond,

    /// <summary>A filled triangle: a point that needs eyes.</summary>
    Triangle,

    /// <summary>An open square: a point that takes no part in a fit.</summary>
    Square,
}
