namespace ParticleLims.Laboratory.Templates;

/// <summary>
/// The template that every laboratory has. Its version 1 came with the program and is part of it, so it needs no row and can never change;
/// version 2 and later ones are written and approved like those of any other template.
/// </summary>
public static class StandardTemplate
{
    /// <summary>Its code on every certificate.</summary>
    public const string Code = "STANDARD";
    internal const string Title = "Standard template";

    private const string Program = "ParticleLims";
    private static readonly DateTimeOffset Since = new(2026, 11, 26, 0, 0, 0, TimeSpan.Zero);
    private static readonly Guid FirstId = new("6c696d73-0000-7000-8000-000000000003");

    /// <summary>The document as it stands before anybody wrote a version of it here.</summary>
    internal static CertificateTemplate Document() => new() { Id = CertificateTemplate.StandardId, Code = Code, Title = Title };

    /// <summary>Version 1.</summary>
    /// <param name="superseded">Whether a later version is in force.</param>
    internal static CertificateTemplateVersion First(bool superseded)
    {
        var first = new CertificateTemplateVersion
        {
            Id = FirstId, DocumentId = CertificateTemplate.StandardId, Number = 1, AuthorName = Program, WrittenAt = Since, WhatChanged = "Came with the program", Written = PaperPlan.Usual.Write(),
        };
        first.ComeWithTheProgram(superseded);
        return first;
    }

    /// <summary>Version 1 by its key; null for another key.</summary>
    internal static CertificateTemplateVersion? VersionOfTheProgram(Guid id) => id == FirstId ? First(superseded: false) : null;

    /// <summary>A template with all its versions at an instant, the newest first; the standard one with that of the program.</summary>
    internal static TemplatePage PageOf(CertificateTemplate template, DateTimeOffset at)
    {
        List<CertificateTemplateVersion> written = [.. template.Versions.OrderByDescending(version => version.Number)];
        return new TemplatePage(template, template.IsStandard ? [.. written, First(written.Exists(version => version.InForceFrom <= at))] : written, at);
    }
}
