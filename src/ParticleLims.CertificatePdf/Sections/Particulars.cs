using ParticleLims.CertificatePdf.Flow;
using ParticleLims.Laboratory.Certificates;
using ParticleLims.Laboratory.Certificates.Texts;

namespace ParticleLims.CertificatePdf.Sections;

/// <summary>Whose product, which lot, which sample, by which papers.</summary>
internal static class Particulars
{
    private const double LabelWidth = 66;
    private const double TallestSideBySide = 330;

    /// <summary>The sample, with the customer where it is the certificate's only one.</summary>
    /// <param name="item">The sample.</param>
    /// <param name="customer">Whose it is; null where the customer stands elsewhere.</param>
    /// <param name="paper">What the template leaves out.</param>
    /// <param name="type">How it is set.</param>
    /// <param name="times">How times are shown.</param>
    public static IReadOnlyList<Piece> Pieces(CertificateItem item, Party? customer, PaperLayout paper, Typesetter type, LocalTimes times)
    {
        var column = (type.Paper.Width - Paper.ColumnGap) / 2;
        var left = new Facts(type, Paper.Left, column, LabelWidth);
        var right = new Facts(type, Paper.Left + column + Paper.ColumnGap, column, LabelWidth);
        List<Piece> product = [.. customer is null ? [] : Customer(left, customer, type.Texts), .. left.Pieces(Product(item.Product, paper, type.Texts))];
        List<Piece> sample = [.. right.Pieces(Sample(item.Sample, paper, times, type.Texts)), .. right.Pieces([(type.Texts["method"], Document(item.Method, type.Texts))])];
        if (Piece.HeightOf(product) <= Piece.HeightOf(sample))
        {
            product.AddRange(left.Pieces(Specification(item, type)));
        }
        else
        {
            sample.AddRange(right.Pieces(Specification(item, type)));
        }

        if (Math.Max(Piece.HeightOf(product), Piece.HeightOf(sample)) <= TallestSideBySide)
        {
            return [Piece.Beside(product, sample) with { Before = 8 }];
        }

        var whole = new Facts(type, Paper.Left, type.Paper.Width, LabelWidth);
        return
        [
            .. customer is null ? [] : Customer(whole, customer, type.Texts), .. whole.Pieces(Product(item.Product, paper, type.Texts)), .. whole.Pieces(Sample(item.Sample, paper, times, type.Texts)),
            .. whole.Pieces([.. Specification(item, type), (type.Texts["method"], Document(item.Method, type.Texts))]),
        ];
    }

    /// <summary>The customer alone, across the page.</summary>
    public static IEnumerable<Piece> Customer(Party customer, Typesetter type) =>
        Customer(new Facts(type, Paper.Left, type.Paper.Width, LabelWidth), customer, type.Texts).Select((piece, i) => i == 0 ? piece with { Before = 8 } : piece);

    private static IEnumerable<Piece> Customer(Facts facts, Party customer, CertificateTexts texts) => facts.Pieces(
        texts["customer"], [(customer.Name, Lettering.Strong), (string.Join(", ", customer.Address.Where(line => line.Length > 0)), Lettering.Body), (customer.Contact, Lettering.Body)]);

    private static IEnumerable<(string Label, string Text)> Product(ProductIdentity product, PaperLayout paper, CertificateTexts texts)
    {
        yield return (texts["product"], $"{product.Code}  {product.Name}");
        yield return (texts["identification"], paper.Prints("identification") ? product.Identification ?? string.Empty : string.Empty);
        yield return (texts["manufacturer"], product.Manufacturer ?? string.Empty);
        yield return (texts["lot"], product.LotNumber);
        if (product.MadeOn is { } day && paper.Prints("madeOn"))
        {
            yield return (texts["made"], LocalTimes.Day(day));
        }

        if (paper.Prints("shelfLife") && (product.RetestOn ?? product.ExpiresOn) is { } last)
        {
            yield return (texts[product.RetestOn is null ? "expiresOn" : "retestOn"], LocalTimes.Day(last));
        }

        yield return (texts["quantity"], paper.Prints("quantity") ? product.Quantity ?? string.Empty : string.Empty);
        yield return (texts["container"], paper.Prints("container") ? product.Container ?? string.Empty : string.Empty);
        yield return (texts["reference"], paper.Prints("customerReference") ? product.CustomerReference ?? string.Empty : string.Empty);
    }

    private static IEnumerable<(string Label, string Text)> Sample(SampleIdentity sample, PaperLayout paper, LocalTimes times, CertificateTexts texts)
    {
        yield return (texts["sample"], Joined(sample.Code, sample.Description));
        yield return (texts["receipt"], sample.ConditionOnReceipt);
        if (paper.Prints("sampling"))
        {
            yield return (texts["taken"], Joined(sample.TakenAt is { } at ? times.At(at) : string.Empty, sample.TakenBy.Length == 0 ? string.Empty : texts.With("taken.by", sample.TakenBy), sample.SamplingWay));
        }

        yield return (texts["received"], times.At(sample.ReceivedAt));
        yield return (texts["tested"], times.Between(sample.TestedFrom, sample.TestedTo, texts));
    }

    private static (string Label, string Text)[] Specification(CertificateItem item, Typesetter type) => [(type.Texts["specification"], Document(item.Specification, type.Texts))];

    private static string Joined(params string[] parts) => string.Join(", ", parts.Where(part => part.Length > 0));

    private static string Document(DocumentIdentity document, CertificateTexts texts) =>
        texts.With("document", document.Code, document.Version, document.Title, LocalTimes.Day(document.InForceFrom));
}
