using System.Text.Encodings.Web;
using System.Text.Json;
using System.Text.Json.Serialization;
using ParticleLims.Laboratory.Record;

namespace ParticleLims.Laboratory.Templates;

/// <summary>The picture at the head of a certificate. Its bytes lie in the database under their hash.</summary>
/// <param name="Sha256">SHA-256 of the bytes, hexadecimal.</param>
/// <param name="Width">In pixels.</param>
/// <param name="Height">In pixels.</param>
/// <param name="Alternative">What it shows, for people who do not see it.</param>
public sealed record PaperLogo(string Sha256, int Width, int Height, string Alternative)
{
    /// <summary>The most letters of the alternative text.</summary>
    public const int LongestAlternative = 200;
}

/// <summary>How a certificate looks: what one version of a template says.</summary>
public sealed record PaperPlan
{
    private static readonly JsonSerializerOptions Form = new()
    {
        PropertyNamingPolicy = JsonNamingPolicy.CamelCase, Encoder = JavaScriptEncoder.UnsafeRelaxedJsonEscaping, Converters = { new JsonStringEnumConverter(JsonNamingPolicy.CamelCase, allowIntegerValues: false) },
    };

    /// <summary>The plan of the standard template as it came with the program.</summary>
    public static PaperPlan Usual { get; } = new();

    /// <summary>What the paper calls itself.</summary>
    public PaperKind Kind { get; init; }

    /// <summary>The picture at the right of the masthead; null for none.</summary>
    public PaperLogo? Logo { get; init; }

    /// <summary>Every block once, in the order in which they are printed.</summary>
    public IReadOnlyList<PaperBlock> Blocks { get; init; } = PaperBlockWords.Usual;

    /// <summary>The fields that are not printed.</summary>
    public IReadOnlyList<PaperField> Omitted { get; init; } = [];

    /// <summary>Whether the Rosin-Rammler net is drawn for every customer; else for those who ask for it.</summary>
    public bool Net { get; init; }

    /// <summary>Whether the uncertainty is printed of every result; else of those whose decision rule takes it into account.</summary>
    public bool Uncertainty { get; init; }

    /// <summary>The template's own texts, one entry a language.</summary>
    public IReadOnlyList<PaperTexts> Texts { get; init; } = [];

    /// <summary>What the accreditation covers; null where there is none.</summary>
    public AccreditedScope? Scope { get; init; }

    /// <summary>The text of a language; the English one where that language has none.</summary>
    public string Text(string language, Func<PaperTexts, string> which)
    {
        ArgumentNullException.ThrowIfNull(which);
        string[] written = [.. new[] { language, PaperTexts.Languages[0] }.Select(code => Texts.FirstOrDefault(one => one.Language == code)).OfType<PaperTexts>().Select(which)];
        return Array.Find(written, text => text.Length > 0) ?? string.Empty;
    }

    /// <summary>Refuses a plan by which no certificate could be printed, by the name of what is wrong.</summary>
    /// <exception cref="RefusedException">A block is missing or stands twice, a field that always stands there is left out, a text is too long or has no English form, or an accreditation has no scope.</exception>
    public void Check()
    {
        Require(Enum.IsDefined(Kind), "kind", "A certificate is a certificate of analysis, a test report or an inspection certificate.");
        foreach (var block in PaperBlockWords.Usual)
        {
            Require(Blocks.Count(one => one == block) == 1, "blocks", $"The block “{block.Words()}” stands on every certificate, and once. Move it where you want it.");
        }

        Require(Blocks.Count == PaperBlockWords.Usual.Count, "blocks", "There is a block that certificates do not have.");
        foreach (var field in Omitted)
        {
            Require(Enum.IsDefined(field), "omitted", "There is a field that certificates do not have.");
            Require(field.WhyNeeded() is null, "omitted", $"“{field.Words()}” stands on every certificate ({field.WhyNeeded()}) and cannot be left out.");
        }

        CheckLogo();
        CheckTexts();
    }

    /// <summary>The same without spaces at the ends of texts, without languages that say nothing, and with nothing twice.</summary>
    public PaperPlan Tidied() => this with
    {
        Logo = Logo is null ? null : Logo with { Alternative = Logo.Alternative.Trim() },
        Omitted = [.. Omitted.Distinct().Order()],
        Texts = [.. Texts.Select(one => one.Trimmed()).Where(one => one != new PaperTexts(one.Language)).OrderBy(one => PaperTexts.Languages.ToList().IndexOf(one.Language))],
        Scope = Scope is null ? null : Scope with { Methods = [.. Scope.Methods.Select(code => code.Trim()).Where(code => code.Length > 0).Distinct().Order(StringComparer.Ordinal)] },
    };

    /// <summary>The canonical form, as it is stored and signed.</summary>
    public string Write() => JsonSerializer.Serialize(this, Form);

    /// <summary>A stored plan read back.</summary>
    public static PaperPlan Read(string written) => JsonSerializer.Deserialize<PaperPlan>(written, Form)!;

    private void CheckLogo()
    {
        if (Logo is { } logo)
        {
            Require(logo.Alternative.Trim().Length is >= 3 and <= PaperLogo.LongestAlternative, "alternative", "Say what the logo shows, in 3 to 200 letters: a reader who does not see it hears that.");
        }
    }

    private void CheckTexts()
    {
        Require(Texts.All(one => PaperTexts.Languages.Contains(one.Language)) && Texts.DistinctBy(one => one.Language).Count() == Texts.Count, "texts", "Texts are written in English (en), German (de), French (fr) or Spanish (es), once each.");
        CheckText("storage and handling", one => one.Storage, PaperTexts.Longest);
        CheckText("safety", one => one.Safety, PaperTexts.LongestSafety);
        CheckText("accreditation", one => one.Accreditation, PaperTexts.Longest);
        CheckText("note", one => one.Note, PaperTexts.Longest);
        var accredited = Texts.Any(one => one.Accreditation.Trim().Length > 0);
        Require(!accredited || Scope is { Methods.Count: > 0 }, "scope", "Name the methods that the accreditation covers, and its last day: a certificate of any other method says that it carries none.");
        Require(accredited || Scope is null, "scope", "Write the accreditation's statement, or take its methods and its last day out.");
    }

    private void CheckText(string name, Func<PaperTexts, string> which, int longest)
    {
        Require(Texts.All(one => which(one).Trim().Length <= longest), "texts", FormattableString.Invariant($"The text on {name} has at most {longest} letters in each language."));
        Require(Texts.All(one => which(one).Trim().Length == 0) || Texts.Any(one => one.Language == PaperTexts.Languages[0] && which(one).Trim().Length > 0), "texts", $"Write the text on {name} in English too: it is printed where another language has none.");
    }

    private static void Require(bool holds, string member, string words)
    {
        if (!holds)
        {
            throw new RefusedException("certificate-template", words, member);
        }
    }
}
