using System.Globalization;
using ParticleLims.Laboratory.Documents;

namespace ParticleLims.Laboratory.Templates;

/// <summary>What a version of a template says, one fact a line.</summary>
public static class TemplateFacts
{
    private static readonly (string Name, Func<PaperTexts, string> Which)[] Texts =
        [("Storage and handling", one => one.Storage), ("Safety", one => one.Safety), ("Accreditation", one => one.Accreditation), ("Note", one => one.Note)];

    /// <summary>The facts.</summary>
    public static IReadOnlyList<VersionFact> Of(CertificateTemplateVersion version)
    {
        ArgumentNullException.ThrowIfNull(version);
        var plan = version.Plan;
        return
        [
            new VersionFact("Kind", plan.Kind.Words()),
            new VersionFact("Logo", plan.Logo is { } logo ? string.Create(CultureInfo.InvariantCulture, $"{logo.Alternative}, {logo.Width} by {logo.Height} pixels, SHA-256 {logo.Sha256[..16]}…") : "none"),
            new VersionFact("Order", string.Join("; ", plan.Blocks.Select(block => block.Words()))),
            new VersionFact("Left out", plan.Omitted.Count == 0 ? "nothing" : string.Join("; ", plan.Omitted.Select(field => field.Words()))),
            new VersionFact("Rosin-Rammler net", plan.Net ? "on every certificate" : "where the customer asks for it"),
            new VersionFact("Uncertainty", plan.Uncertainty ? "of every result" : "where the decision rule takes it into account"),
            .. from text in Texts
               from written in plan.Texts
               where text.Which(written).Length > 0
               select new VersionFact($"{text.Name} ({written.Language})", text.Which(written)),
            .. plan.Scope is { } scope ? [new VersionFact("Accredited", string.Create(CultureInfo.InvariantCulture, $"{string.Join(", ", scope.Methods)}, until {scope.Until:yyyy-MM-dd}"))] : Array.Empty<VersionFact>(),
        ];
    }
}
