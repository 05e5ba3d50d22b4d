using System.Security.Cryptography;
using ParticleLims.CertificatePdf.Sealing;
using ParticleLims.Laboratory.Certificates;
using ParticleLims.Laboratory.Record;
using ParticleLims.Web.Shell;

namespace ParticleLims.Web.Certificates;

/// <summary>Certificates as files, and the public check.</summary>
internal static class CertificateEndpoints
{
    public static void MapCertificates(this IEndpointRouteBuilder routes)
    {
        routes.MapGet("/certificates/{id:guid}/file", DownloadAsync).RequireAuthorization(new NeedsAttribute(Permission.SeeCertificates));
        routes.MapGet("/certificates/{id:guid}/json", TwinAsync).RequireAuthorization(new NeedsAttribute(Permission.SeeCertificates));
        routes.MapGet("/certificates/{id:guid}/csv", CsvAsync).RequireAuthorization(new NeedsAttribute(Permission.SeeCertificates));
        routes.MapGet("/certificates/draft", DraftAsync).RequireAuthorization(new NeedsAttribute(Permission.SeeLaboratory));
        routes.MapGet("/verify/file/{sha256:regex(^[0-9a-fA-F]{{64}}$)}", CheckHashAsync).AllowAnonymous().RequireRateLimiting(RateLimits.Verify);
        routes.MapGet("/verify/keys", (SealKeys keys) => Results.Text(string.Concat(keys.Certificates().Select(one => one.ExportCertificatePem() + "\n")), "application/x-pem-file")).AllowAnonymous().RequireRateLimiting(RateLimits.Verify);
        routes.MapPost("/verify/file", CheckFileAsync).AllowAnonymous().RequireRateLimiting(RateLimits.Verify);
    }

    private static async Task<IResult> DownloadAsync(HttpContext context, Guid id, CertificateShelf shelf)
    {
        try
        {
            return await shelf.DownloadAsync(ActorOf(context), id, context.RequestAborted) is { } file ? Results.File(file.Pdf, "application/pdf", file.FileName) : Results.NotFound();
        }
        catch (NotPermittedException)
        {
            return Results.Forbid();
        }
    }

    private static Task<IResult> TwinAsync(HttpContext context, Guid id, CertificateShelf shelf) =>
        OfTwinAsync(context, id, shelf, twin => Results.File(System.Text.Encoding.UTF8.GetBytes(twin.Json), "application/json", $"{twin.Number}.json"));

    private static Task<IResult> CsvAsync(HttpContext context, Guid id, CertificateShelf shelf) =>
        OfTwinAsync(context, id, shelf, twin => Results.File(System.Text.Encoding.UTF8.GetBytes(CertificateCsv.Of(CertificateIssue.ReadContent(twin.Json))), "text/csv; charset=utf-8", $"{twin.Number}.csv"));

    private static async Task<IResult> OfTwinAsync(HttpContext context, Guid id, CertificateShelf shelf, Func<CertificateTwin, IResult> answer)
    {
        try
        {
            return await shelf.TwinAsync(ActorOf(context), id, context.RequestAborted) is { } twin ? answer(twin) : Results.NotFound();
        }
        catch (NotPermittedException)
        {
            return Results.Forbid();
        }
    }

    private static async Task<IResult> DraftAsync(HttpContext context, [Microsoft.AspNetCore.Mvc.FromQuery(Name = "sample")] Guid[] samples, CertificateIssue issuing)
    {
        try
        {
            return Results.File(await issuing.PreviewAsync(ActorOf(context), samples, context.RequestAborted), "application/pdf");
        }
        catch (NotPermittedException)
        {
            return Results.Forbid();
        }
        catch (RefusedException refused)
        {
            return refused.Code == "not-found" ? Results.NotFound() : Results.Text(refused.Message, "text/plain; charset=utf-8", statusCode: StatusCodes.Status409Conflict);
        }
    }

    private static async Task<IResult> CheckHashAsync(HttpContext context, string sha256, CertificateCheck check) =>
        Results.Json(CheckAnswer.Of(await check.ByFileHashAsync(sha256, context.RequestAborted)));

    /// <summary>For browsers that cannot hash: the file is hashed as it comes in and kept nowhere.</summary>
    private static async Task<IResult> CheckFileAsync(HttpContext context, CertificateCheck check)
    {
        if (context.Request.ContentLength is null or > SealCheck.LargestFile)
        {
            return Results.StatusCode(StatusCodes.Status413PayloadTooLarge);
        }

        var form = await context.Request.ReadFormAsync(context.RequestAborted);
        if (form.Files.Count == 0)
        {
            return Results.LocalRedirect("/verify");
        }

        await using var file = form.Files[0].OpenReadStream();
        var hash = Convert.ToHexStringLower(await SHA256.HashDataAsync(file, context.RequestAborted));
        return Results.LocalRedirect($"/verify?sha256={hash}");
    }

    private static Actor ActorOf(HttpContext context) => SessionIdentity.ActorOf(context);
}

/// <summary>What the check says to a browser.</summary>
public sealed record CheckAnswer(string Outcome, string Words, string? Number, string? ProductCode, string? LotNumber, string? IssuedOn, string? Issuer)
{
    /// <summary>Says what was found.</summary>
    public static CheckAnswer Of(CheckedCertificate? found)
    {
        if (found is null)
        {
            return new CheckAnswer("notOurs", "Not ours, or changed: this laboratory has issued no such file.", null, null, null, null, null);
        }

        var (outcome, words) = found.State switch
        {
            CertificateState.Issued => ("genuine", "Genuine and current."),
            CertificateState.Superseded => ("superseded", $"Genuine, but superseded: {found.SupersededBy ?? "a newer one"} took its place."),
            CertificateState.Withdrawn => ("withdrawn", "Issued by this laboratory, but withdrawn. Do not rely on it."),
            CertificateState.Suspended => ("suspended", "Issued by this laboratory, and suspended while something is looked into. Do not rely on it until it is reinstated."),
            _ => throw new ArgumentOutOfRangeException(nameof(found), found.State, "Not a state."),
        };
        return new CheckAnswer(outcome, words, found.Number, found.ProductCode, found.LotNumber, found.IssuedAt.UtcDateTime.ToString("yyyy-MM-dd", System.Globalization.CultureInfo.InvariantCulture), found.Issuer);
    }
}
