using ParticleLims.Laboratory.Certificates;
using ParticleLims.Laboratory.Certificates.Texts;

namespace ParticleLims.CertificatePdf.Sections;

/// <summary>The layout of a content, read for drawing. A content from before there were templates is drawn in the usual order with everything.</summary>
internal sealed class PaperLayout(CertificateLayout? layout)
{
    public const string Particulars = "particulars";
    public const string Results = "results";
    public const string Sieves = "sieves";
    public const string Net = "net";
    public const string Testing = "testing";
    public const string Notes = "notes";
    public const string Signatures = "signatures";

    private static readonly string[] _usual = [Particulars, Results, Sieves, Net, Testing, Notes, Signatures];

    /// <summary>The blocks in their order; one that the layout does not name stands at the end, so that nothing is lost.</summary>
    public IReadOnlyList<string> Blocks { get; } = [.. (layout?.Blocks ?? []).Where(_usual.Contains).Union(_usual)];

    public CertificateLayout? Layout => layout;

    /// <summary>Whether a field that a template may leave out is printed.</summary>
    public bool Prints(string field) => layout?.Omitted.Contains(field) != true;

    /// <summary>What the paper calls itself.</summary>
    public string Title(CertificateTexts texts) => layout?.Kind is { } kind and not "analysis" ? texts["title." + kind] : texts["title"];

    /// <summary>In the style of which standard; null where the title says it all.</summary>
    public string? Style(CertificateTexts texts) => layout?.Kind is { } kind and not "analysis" ? texts["style." + kind] : null;

    /// <summary>Whether the blocks of the samples have begun before that one; those that speak of the whole paper stand before or after all samples.</summary>
    public bool StandsBeforeTheSamples(string block) => Blocks.TakeWhile(one => one != block).All(one => one is Notes or Signatures);
}
