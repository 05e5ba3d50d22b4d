using ParticleLims.CertificatePdf.Flow;

namespace ParticleLims.CertificatePdf.Sections;

/// <summary>The template's own texts: storage, safety, accreditation, anything else.</summary>
internal static class Notes
{
    private const double LabelWidth = 76;

    public static IEnumerable<Piece> Pieces(PaperLayout paper, Typesetter type)
    {
        if (paper.Layout is not { } layout)
        {
            return [];
        }

        var (facts, texts) = (new Facts(type, Paper.Left, type.Paper.Width, LabelWidth), type.Texts);
        (string Label, string? Text)[] notes =
            [(texts["notes.storage"], layout.Storage), (texts["notes.safety"], layout.Safety), (texts["notes.accreditation"], layout.Accreditation), (texts["notes.note"], layout.Note)];
        List<Piece> pieces = [.. facts.Pieces(notes.Where(note => note.Text is not null).Select(note => (note.Label, note.Text!)))];
        return pieces.Count == 0 ? [] : [Words.Heading(texts["notes"], Paper.Left), .. pieces];
    }
}
