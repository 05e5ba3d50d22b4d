using ParticleLims.Laboratory.Certificates;
using ParticleLims.Web.Record;

namespace ParticleLims.Web.Certificates;

/// <summary>A certificate's numbers as CSV (RFC 4180): for each sample the results, then the sieves and the receiver of a nested stack, one kind of row each.</summary>
internal static class CertificateCsv
{
    private const string Head = "certificate,revision,lot,kind,what,unit,lower limit,upper limit,value,uncertainty,verdict,sieve,residue g,retained %,passing %,sample,fraction %";

    public static string Of(CertificateContent content)
    {
        ArgumentNullException.ThrowIfNull(content);
        return string.Concat(content.Items.SelectMany(item => Rows(content, item)).Prepend(Head).Select(row => row + "\r\n"));
    }

    private static IEnumerable<string> Rows(CertificateContent content, CertificateItem item)
    {
        string[] common = [content.Number ?? string.Empty, content.Revision.ToString(System.Globalization.CultureInfo.InvariantCulture), item.Product.LotNumber];
        return item.Results.Select(line => Row(common, "result", line.Characteristic, line.Unit, Blank(line.Lower), Blank(line.Upper), line.Result, line.Uncertainty ?? string.Empty, line.Verdict, "", "", "", "", item.Sample.Code, ""))
            .Concat(item.Sieves.Select(line => Row(common, "sieve", line.Aperture, "", "", "", "", "", "", line.Serial, line.Residue, line.Retained, line.Passing, item.Sample.Code, line.Fraction ?? string.Empty)))
            .Concat(item.Receiver is { } receiver ? [Row(common, "receiver", "", "", "", "", "", "", "", "", receiver.Residue, "", "", item.Sample.Code, receiver.Fraction)] : Array.Empty<string>());
    }

    private static string Blank(string bound) => bound == "–" ? string.Empty : bound;

    private static string Row(string[] common, params string[] cells) => string.Join(',', common.Concat(cells).Select(RecordExport.Cell));
}
