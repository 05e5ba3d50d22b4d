using ParticleLims.Laboratory.Templates;

namespace ParticleLims.Web.Templates;

/// <summary>The texts of a language while they are written.</summary>
public sealed class TextSheet(string language)
{
    /// <summary>By ISO 639-1.</summary>
    public string Language { get; } = language;
    public string Storage { get; set; } = string.Empty;
    public string Safety { get; set; } = string.Empty;
    public string Accreditation { get; set; } = string.Empty;
    public string Note { get; set; } = string.Empty;

    public PaperTexts Written => new(Language) { Storage = Storage, Safety = Safety, Accreditation = Accreditation, Note = Note };

    public static TextSheet Of(string language, PaperPlan plan)
    {
        var written = plan.Texts.FirstOrDefault(one => one.Language == language) ?? new PaperTexts(language);
        return new TextSheet(language) { Storage = written.Storage, Safety = written.Safety, Accreditation = written.Accreditation, Note = written.Note };
    }
}

/// <summary>A template while it is written.</summary>
public sealed class TemplateSheet
{
    public static IReadOnlyList<PaperKind> Kinds { get; } = Enum.GetValues<PaperKind>();

    public int Kind { get; set; }
    public List<PaperBlock> Blocks { get; private init; } = [.. PaperBlockWords.Usual];

    /// <summary>The fields that may be left out, and whether each is printed.</summary>
    public Dictionary<PaperField, bool> Printed { get; private init; } = PaperFields.Optional.ToDictionary(field => field, _ => true);
    public bool Net { get; set; }
    public bool Uncertainty { get; set; }
    public IReadOnlyList<TextSheet> Texts { get; private init; } = [.. PaperTexts.Languages.Select(language => new TextSheet(language))];

    /// <summary>The codes of the accredited methods, with commas between.</summary>
    public string ScopeMethods { get; set; } = string.Empty;
    public DateOnly? ScopeUntil { get; set; }

    /// <summary>The logo of the version before; null for none.</summary>
    public PaperLogo? Logo { get; set; }

    /// <summary>A new picture; null where the logo stays as it is.</summary>
    public byte[]? Picture { get; set; }
    public string Alternative { get; set; } = string.Empty;

    public bool HasLogo => Picture is not null || Logo is not null;

    private string[] Methods => ScopeMethods.Split(',', StringSplitOptions.TrimEntries | StringSplitOptions.RemoveEmptyEntries);

    public static TemplateSheet Of(PaperPlan plan)
    {
        ArgumentNullException.ThrowIfNull(plan);
        return new TemplateSheet
        {
            Kind = Kinds.ToList().IndexOf(plan.Kind), Blocks = [.. plan.Blocks], Printed = PaperFields.Optional.ToDictionary(field => field, field => !plan.Omitted.Contains(field)), Net = plan.Net, Uncertainty = plan.Uncertainty,
            Texts = [.. PaperTexts.Languages.Select(language => TextSheet.Of(language, plan))], ScopeMethods = plan.Scope is { } scope ? string.Join(", ", scope.Methods) : string.Empty, ScopeUntil = plan.Scope?.Until,
            Logo = plan.Logo, Alternative = plan.Logo?.Alternative ?? string.Empty,
        };
    }

    /// <summary>Moves a block up or down by one place.</summary>
    public void Move(PaperBlock block, int by)
    {
        var place = Blocks.IndexOf(block);
        var target = Math.Clamp(place + by, 0, Blocks.Count - 1);
        Blocks.RemoveAt(place);
        Blocks.Insert(target, block);
    }

    public void TakeLogoOut() => (Logo, Picture, Alternative) = (null, null, string.Empty);

    public TemplateDraft Draft(string whatChanged) => new(Plan, whatChanged) { Picture = Picture };

    private PaperPlan Plan => new()
    {
        Kind = Kinds[Kind], Blocks = [.. Blocks], Omitted = [.. Printed.Where(one => !one.Value).Select(one => one.Key)], Net = Net, Uncertainty = Uncertainty, Texts = [.. Texts.Select(one => one.Written)],
        Scope = Methods.Length > 0 || ScopeUntil is not null ? new AccreditedScope(Methods, ScopeUntil ?? DateOnly.MinValue) : null,
        Logo = HasLogo ? (Logo ?? new PaperLogo(string.Empty, 0, 0, string.Empty)) with { Alternative = Alternative } : null,
    };
}
