using ParticleLims.Laboratory.Exchange;
using ParticleLims.Laboratory.Sieves;

namespace ParticleLims.Web.Exchange;

/// <summary>The columns of reference materials.</summary>
internal static class ReferenceMaterialColumns
{
    public static ExchangeColumn Name { get; } = new("Name", null, "name", "What it is: Glass beads 50 to 80 µm.") { Required = true, IsText = true };
    public static ExchangeColumn Batch { get; } = new("Batch", null, "batch", "As on its bottle.") { Required = true, IsText = true, Longest = 60 };
    public static ExchangeColumn Certificate { get; } = new("Certificate number", null, "certificate", "Of the certificate with the curve.") { Required = true, IsText = true };
    public static ExchangeColumn GoodUntil { get; } = new("Certificate counts until", null, "goodUntil", "A day. After it no check takes the material.") { Required = true };

    public static ExchangeColumn Points { get; } = new(
        "Certificate's curve: aperture (µm), passing (%), standard uncertainty (%)", null, "points", "The three numbers of a point with blanks between, a semicolon after each point: 75 10 0.4; 82 25 0.4; 90 50 0.4.")
    {
        Required = true, IsText = true, Longest = 4_000,
    };

    public static IReadOnlyList<ExchangeColumn> All { get; } = [Name, Batch, Certificate, GoodUntil, Points];

    /// <summary>Reads a row.</summary>
    public static RegisterRow Read(RowPlace place, RowReader cells)
    {
        ArgumentNullException.ThrowIfNull(cells);
        var (name, batch, certificate, until, points) = (cells.Text(Name), cells.Text(Batch), cells.Text(Certificate), cells.Day(GoodUntil), cells.Text(Points));
        var card = new MaterialCard(name, batch, certificate, until ?? default, string.Join('\n', points.Split(';', '\n').Select(point => point.Trim()).Where(point => point.Length > 0)));
        return cells.Findings.Count > 0 ? new UnreadableRow(place, RegisterKind.ReferenceMaterials, card.Label, cells.Findings) : new MaterialRow(place, card);
    }

    /// <summary>The cells of a material.</summary>
    public static Dictionary<ExchangeColumn, TableCell> Cells(ReferenceMaterial material)
    {
        ArgumentNullException.ThrowIfNull(material);
        return new Dictionary<ExchangeColumn, TableCell>
        {
            [Name] = TableCell.Of(material.Name), [Batch] = TableCell.Of(material.Batch), [Certificate] = TableCell.Of(material.Certificate), [GoodUntil] = TableCell.Of(material.GoodUntil),
            [Points] = TableCell.Of(string.Join("; ", material.Points.Split('\n', StringSplitOptions.TrimEntries | StringSplitOptions.RemoveEmptyEntries))),
        };
    }
}
