using System.Text;
using System.Text.Json.Nodes;
using Json.Schema;
using ParticleLims.Laboratory.Certificates;
using Shouldly;
using UglyToad.PdfPig;
using Xunit;

namespace ParticleLims.CertificatePdf.Tests.Sealing;

/// <summary>The machine-readable twin says what the pages say, in the published form.</summary>
public sealed class TwinTests
{
    private static readonly JsonSchema _schema = Published(1);

    [Fact]
    public void It_fits_the_published_schema()
    {
        foreach (var content in new[] { Certificates.Typical, Certificates.Long, Certificates.Draft })
        {
            Errors(JsonNode.Parse(CertificateIssue.WriteContent(content))!).ShouldBeEmpty();
        }
    }

    [Fact]
    public void A_twin_of_several_samples_fits_the_second_version_and_not_the_first()
    {
        var twin = JsonNode.Parse(CertificateIssue.WriteContent(Certificates.Several))!;
        Errors(twin, Published(2)).ShouldBeEmpty();
        Errors(twin).ShouldNotBeEmpty("whoever knows the first version alone would take the first sample for all");
        Errors(JsonNode.Parse(CertificateIssue.WriteContent(Certificates.Typical))!, Published(2)).ShouldNotBeEmpty();
        twin["further"]![1]!.AsObject().Remove("results");
        Errors(twin, Published(2)).ShouldNotBeEmpty();
    }

    [Fact]
    public void The_schema_refuses_what_it_does_not_describe()
    {
        var twin = JsonNode.Parse(CertificateIssue.WriteContent(Certificates.Typical))!.AsObject();
        twin["unheardOf"] = 1;
        Errors(twin).ShouldNotBeEmpty();
        twin.Remove("unheardOf");
        Errors(twin).ShouldBeEmpty();
        twin.Remove("results");
        Errors(twin).ShouldNotBeEmpty();
    }

    [Fact]
    public void Another_library_reads_the_attachment_and_every_value_in_it_stands_on_the_pages()
    {
        using var read = PdfDocument.Open(SealedFile.Typical);
        read.Advanced.TryGetEmbeddedFiles(out var files).ShouldBeTrue();
        var twin = files!.ShouldHaveSingleItem();
        twin.Name.ShouldBe("C-26-00042.json");
        var bytes = twin.Memory.ToArray();
        var content = CertificateIssue.ReadContent(Encoding.UTF8.GetString(bytes));
        var text = PrintedPages.WithoutSpaces(string.Concat(read.GetPages().Select(page => page.Text)));
        var values = content.Results.SelectMany(line => new[] { line.Characteristic, line.Lower, line.Upper, line.Result, line.Uncertainty ?? string.Empty, line.Verdict })
            .Concat(content.Sieves.SelectMany(line => new[] { line.Serial, line.Residue, line.Retained, line.Passing }))
            .Concat([content.Number!, content.Product.LotNumber, content.Customer.Name, content.Conformity, content.DecisionRule, content.Basis, content.RecordHead.Hash]).ToList();
        values.ShouldAllBe(value => text.Contains(PrintedPages.WithoutSpaces(value), StringComparison.Ordinal));
        text.ShouldContain("Hashofthecontent:" + Convert.ToHexStringLower(System.Security.Cryptography.SHA256.HashData(bytes)));
    }

    [Fact]
    public void Reading_and_writing_it_again_changes_no_byte()
    {
        var twin = CertificateIssue.WriteContent(Certificates.Typical);
        CertificateIssue.WriteContent(CertificateIssue.ReadContent(twin)).ShouldBe(twin);
    }

    [Fact]
    public void What_came_to_the_form_later_fits_the_published_schemas_and_leaves_the_bytes_of_before_alone()
    {
        var before = CertificateIssue.WriteContent(Certificates.Typical);
        new[] { "manufacturer", "identification", "container", "retestOn", "expiresOn", "fraction", "receiver" }.ShouldAllBe(name => !before.Contains($"\"{name}\""));
        var content = Certificates.Typical with
        {
            Product = Certificates.Typical.Product with { Identification = "CAS 471-34-1", Manufacturer = "Stoneriver Quarries", Container = "Sacks", RetestOn = new DateOnly(2028, 1, 1), ExpiresOn = new DateOnly(2029, 1, 1) },
            Sieves = [.. Certificates.Typical.Sieves.Select(sieve => sieve with { Fraction = "1.00" })], Receiver = new ReceiverLine("8.673", "11.69"),
        };
        Errors(JsonNode.Parse(CertificateIssue.WriteContent(content))!).ShouldBeEmpty();
        Errors(JsonNode.Parse(CertificateIssue.WriteContent(content with { FormatVersion = CertificateContent.SeveralSamples, Overall = "Both conform.", Further = [content.Items[0]] }))!, Published(CertificateContent.SeveralSamples)).ShouldBeEmpty();
    }

    private static JsonSchema Published(int version) => JsonSchema.FromText(File.ReadAllText(Path.Combine(AppContext.BaseDirectory, "schemas", $"certificate-{version.ToString(System.Globalization.CultureInfo.InvariantCulture)}.json")));

    internal static List<string> Errors(JsonNode twin, JsonSchema? schema = null)
    {
        var result = (schema ?? _schema).Evaluate(twin, new EvaluationOptions { OutputFormat = OutputFormat.List, RequireFormatValidation = true });
        return result.IsValid ? [] : [.. result.Details.Where(detail => detail.HasErrors).SelectMany(detail => detail.Errors!.Select(error => $"{detail.InstanceLocation}: {error.Value}"))];
    }
}
