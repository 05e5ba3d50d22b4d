using ParticleLims.Pictures.Drawing;
using PdfSharp.Drawing;
using PdfSharp.UniversalAccessibility;

namespace ParticleLims.CertificatePdf.Flow;

/// <summary>
/// One page being drawn. Everything on it stands either in an element of the document's structure, for screen readers, or
/// in an artifact, which they pass over.
/// </summary>
internal sealed class Sheet(XGraphics graphics, StructureBuilder structure, Typesetter type)
{
    public XSize Size => type.Paper.Size;

    public Typesetter Type => type;

    /// <summary>One line of text from its left end on the base line. The space behind it keeps words apart when they are read out.</summary>
    public void Text(double x, double baseLine, string text, Lettering lettering)
    {
        if (text.Length > 0)
        {
            graphics.DrawString(text + " ", type.Font(lettering), new XSolidBrush(lettering.Colour), x, baseLine);
        }
    }

    public void TextEndingAt(double x, double baseLine, string text, Lettering lettering) => Text(x - type.Width(text, lettering), baseLine, text, lettering);

    public void Box(double x, double y, double width, double height, XColor colour) => graphics.DrawRectangle(new XSolidBrush(colour), x, y, width, height);

    public void Rule(double x, double y, double width, XColor colour, double thickness = 0.5) =>
        graphics.DrawLine(new XPen(colour, thickness), x, y, x + width, y);

    public void Fill(XGraphicsPath path, XColor colour) => graphics.DrawPath(new XSolidBrush(colour), path);

    /// <summary>A large text across the page, rising to the right, centred.</summary>
    public void Across(string text, Lettering lettering)
    {
        var state = graphics.Save();
        graphics.TranslateTransform(Size.Width / 2, Size.Height / 2);
        graphics.RotateTransform(-52);
        Text(-type.Width(text, lettering) / 2, lettering.Size * 0.35, text, lettering);
        graphics.Restore(state);
    }

    public void Plot(IPlot plot, double x, double y, PlotLayout layout) => plot.Draw(new PdfPlotSurface(graphics, type, new XPoint(x, y)), layout);

    public void Picture(XImage picture, double x, double y, double width, double height) => graphics.DrawImage(picture, x, y, width, height);

    public IDisposable Element(PdfBlockLevelElementTag tag)
    {
        structure.BeginElement(tag);
        return new Ending(structure);
    }

    public IDisposable Figure(string alternative, double x, double y, double width, double height)
    {
        structure.BeginElement(PdfIllustrationElementTag.Figure, alternative, new XRect(x, y, width, height));
        return new Ending(structure);
    }

    public IDisposable Artifact()
    {
        structure.BeginArtifact();
        return new Ending(structure);
    }

    private sealed class Ending(StructureBuilder structure) : IDisposable
    {
        public void Dispose() => structure.End();
    }
}
