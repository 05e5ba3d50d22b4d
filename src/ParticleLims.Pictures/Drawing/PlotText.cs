namespace ParticleLims.Pictures.Drawing;

/// <summary>Which end of a text stands at its place.</summary>
public enum PlotAnchor
{
    /// <summary>The text begins there.</summary>
    Start,

    /// <summary>The text is centred there.</summary>
    Middle,

    /// <summary>The text ends there.</summary>
    End,
}

/// <summary>How a text is drawn.</summary>
/// <param name="Size">The size in the layout's unit.</param>
/// <param name="Anchor">Which end stands at the place.</param>
/// <param name="Ink">What it stands for.</param>
/// <param name="Bold">Whether it is bold.</param>
public readonly record struct PlotText(double Size, PlotAnchor Anchor = PlotAnchor.Start, PlotInk Ink = PlotInk.Text, bool Bold = false);
