using ParticleLims.Pictures.Drawing;
using PdfSharp.Drawing;

namespace ParticleLims.CertificatePdf.Flow;

/// <summary>The colours of a plot on paper; no two of them have the same grey when printed in black.</summary>
internal static class PlotColours
{
    private static readonly XColor _replicate = XColor.FromArgb(0x9A, 0xA5, 0xA9);
    private static readonly XColor _model = XColor.FromArgb(0x8A, 0x5F, 0x86);
    private static readonly XColor _grid = XColor.FromArgb(0xDD, 0xE3, 0xE6);
    private static readonly XColor _alarm = XColor.FromArgb(0xA8, 0x32, 0x2A);

    public static XColor Of(PlotInk ink) => ink switch
    {
        PlotInk.Text => House.Text,
        PlotInk.Axis => House.Muted,
        PlotInk.Grid => _grid,
        PlotInk.Curve => House.Teal,
        PlotInk.Replicate => _replicate,
        PlotInk.Model => _model,
        PlotInk.Gate => House.Ochre,
        PlotInk.Percentile => House.Text,
        PlotInk.Alarm => _alarm,
        _ => throw new ArgumentOutOfRangeException(nameof(ink), ink, "This ink has no colour on paper."),
    };
}
