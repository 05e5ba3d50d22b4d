using System.Globalization;
using ParticleLims.CertificatePdf.Flow;
using ParticleLims.Laboratory.Certificates;

namespace ParticleLims.CertificatePdf.Sections;

/// <summary>Whose product, which lot, which sample, by which papers.</summary>
internal static class Particulars
{
    private const double LabelWidth = 62;
    private const double TallestSideBySide = 330;

    public static IReadOnlyList<Piece> Pieces(CertificateContent content, Typesetter type, LocalTimes times)
    {
        var column = (Paper.Width - Paper.ColumnGap) / 2;
        var left = new Facts(type, Paper.Left, column, LabelWidth);
        var right = new Facts(type, Paper.Left + column + Paper.ColumnGap, column, LabelWidth);
        List<Piece> product = [.. Customer(left, content.Customer), .. left.Pieces(Product(content.Product)), .. left.Pieces([("Specification", Document(content.Specification))])];
        List<Piece> sample = [.. right.Pieces(Sample(content.Sample, times)), .. right.Pieces([("Method", Document(content.Method))])];
        if (Math.Max(Piece.HeightOf(product), Piece.HeightOf(sample)) <= TallestSideBySide)
        {
            return [Piece.Beside(product, sample) with { Before = 8 }];
        }

        var whole = new Facts(type, Paper.Left, Paper.Width, LabelWidth);
        return
        [
            .. Customer(whole, content.Customer), .. whole.Pieces(Product(content.Product)), .. whole.Pieces(Sample(content.Sample, times)),
            .. whole.Pieces([("Specification", Document(content.Specification)), ("Method", Document(content.Method))]),
        ];
    }

    private static IEnumerable<Piece> Customer(Facts facts, Party customer) => facts.Pieces(
        "Customer", [(customer.Name, Lettering.Strong), (string.Join(", ", customer.Address.Where(line => line.Length > 0)), Lettering.Body), (customer.Contact, Lettering.Body)]);

    private static IEnumerable<(string Label, string Text)> Product(ProductIdentity product)
    {
        yield return ("Product", $"{product.Code}  {product.Name}");
        yield return ("Lot", product.LotNumber);
        if (product.MadeOn is { } day)
        {
            yield return ("Made on", LocalTimes.Day(day));
        }

        yield return ("Quantity", product.Quantity ?? string.Empty);
        yield return ("Your reference", product.CustomerReference ?? string.Empty);
    }

    private static IEnumerable<(string Label, string Text)> Sample(SampleIdentity sample, LocalTimes times)
    {
        yield return ("Sample", Joined(sample.Code, sample.Description));
        yield return ("On receipt", sample.ConditionOnReceipt);
        yield return ("Taken", Joined(sample.TakenAt is { } at ? times.At(at) : string.Empty, sample.TakenBy.Length == 0 ? string.Empty : "by " + sample.TakenBy, sample.SamplingWay));
        yield return ("Received", times.At(sample.ReceivedAt));
        yield return ("Tested", times.Between(sample.TestedFrom, sample.TestedTo));
    }

    private static string Joined(params string[] parts) => string.Join(", ", parts.Where(part => part.Length > 0));

    private static string Document(DocumentIdentity document) => string.Create(
        CultureInfo.InvariantCulture, $"{document.Code} version {document.Version}, {document.Title}, in force from {LocalTimes.Day(document.InForceFrom)}");
}
