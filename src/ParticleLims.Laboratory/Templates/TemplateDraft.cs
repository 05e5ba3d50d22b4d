using System.Security.Cryptography;
using Microsoft.EntityFrameworkCore;
using ParticleLims.Laboratory.Record;

namespace ParticleLims.Laboratory.Templates;

/// <summary>What a version of a template says, as its author writes it.</summary>
/// <param name="Plan">The plan; with a new picture, its logo's hash and size are taken from the picture.</param>
/// <param name="WhatChanged">Against the version before.</param>
public sealed record TemplateDraft(PaperPlan Plan, string WhatChanged = "First version")
{
    /// <summary>The bytes of a new picture; null where the plan has none, or one that is known.</summary>
    public byte[]? Picture { get; init; }

    /// <summary>SHA-256 of the new picture's file, hexadecimal; null for none.</summary>
    internal string? PictureHash => Picture is null ? null : Convert.ToHexStringLower(SHA256.HashData(Picture));

    /// <summary>The plan as it would be kept, and the picture's bytes as they would be kept.</summary>
    /// <exception cref="RefusedException">The picture or the plan is refused.</exception>
    public (PaperPlan Plan, LogoPicture? Picture) Checked()
    {
        var picture = Picture is null ? null : LogoPicture.Of(Picture);
        var plan = (picture is null ? Plan : Plan with { Logo = new PaperLogo(picture.Sha256, picture.Width, picture.Height, Plan.Logo?.Alternative ?? string.Empty) }).Tidied();
        plan.Check();
        return (plan, picture);
    }

    internal async Task<CertificateTemplateVersion> ToVersionAsync(DeedScope scope, Guid templateId, int number, ITemplateTrial trial, CancellationToken cancellation)
    {
        var (plan, picture) = Checked();
        if (plan.Logo is { } logo && !await KeepAsync(scope, logo, picture, cancellation))
        {
            throw new RefusedException("logo-unknown", "The logo is not kept here. Choose its file again.", "logo");
        }

        trial.Try(plan, picture?.Bytes ?? await BytesAsync(scope, plan.Logo, cancellation));
        return new CertificateTemplateVersion
        {
            Id = scope.NewId(), DocumentId = templateId, Number = number, AuthorId = scope.PersonId, AuthorName = scope.By.Name, WrittenAt = scope.Now, WhatChanged = WhatChanged.Trim(), Written = plan.Write(),
        };
    }

    private static async Task<bool> KeepAsync(DeedScope scope, PaperLogo logo, LogoPicture? picture, CancellationToken cancellation)
    {
        if (await scope.Data.CertificateLogos.AnyAsync(one => one.Sha256 == logo.Sha256 && one.Width == logo.Width && one.Height == logo.Height, cancellation))
        {
            return true;
        }

        if (picture is not null)
        {
            scope.Data.Add(new CertificateLogo
            {
                Sha256 = picture.Sha256, MediaType = picture.MediaType, Width = picture.Width, Height = picture.Height, Bytes = picture.Bytes, AddedAt = scope.Now, AddedByName = scope.By.Name,
            });
        }

        return picture is not null;
    }

    private static Task<byte[]?> BytesAsync(DeedScope scope, PaperLogo? logo, CancellationToken cancellation) =>
        scope.Data.CertificateLogos.Where(one => logo != null && one.Sha256 == logo.Sha256).Select(one => (byte[]?)one.Bytes).FirstOrDefaultAsync(cancellation);
}

/// <summary>Tries whether certificates can be drawn by a plan, before anybody approves it.</summary>
public interface ITemplateTrial
{
    /// <summary>Draws an example in every language and on every sheet.</summary>
    /// <param name="plan">The plan.</param>
    /// <param name="picture">The bytes of its logo; null for none.</param>
    /// <exception cref="RefusedException">Something in it cannot be drawn.</exception>
    void Try(PaperPlan plan, byte[]? picture);
}
