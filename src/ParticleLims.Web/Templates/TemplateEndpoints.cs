using ParticleLims.Laboratory.Certificates;
using ParticleLims.Laboratory.Record;
using ParticleLims.Laboratory.Templates;
using ParticleLims.Web.Shell;

namespace ParticleLims.Web.Templates;

/// <summary>Previews of templates as PDF, shown inside our own pages only, and logos as downloads.</summary>
internal static class TemplateEndpoints
{
    public static void MapTemplates(this IEndpointRouteBuilder routes)
    {
        routes.MapGet("/certificates/templates/versions/{versionId:guid}/preview", VersionAsync).RequireAuthorization(new NeedsAttribute(Permission.SeeLaboratory));
        routes.MapGet("/certificates/templates/drafts/{key:guid}/preview", DraftAsync).RequireAuthorization(new NeedsAttribute(Permission.WriteDocuments));
        routes.MapGet("/certificates/templates/logos/{sha256:regex(^[0-9a-f]{{64}}$)}", LogoAsync).RequireAuthorization(new NeedsAttribute(Permission.SeeLaboratory));
    }

    private static Task<IResult> VersionAsync(HttpContext context, Guid versionId, string? language, string? paper, TemplatePreview preview) =>
        ShownAsync(context, async () => await preview.OfVersionAsync(SessionIdentity.ActorOf(context), versionId, language ?? "en", paper ?? "A4", context.RequestAborted));

    private static Task<IResult> DraftAsync(HttpContext context, Guid key, string? language, string? paper, TemplatePreview preview, PreviewShelf shelf)
    {
        var actor = SessionIdentity.ActorOf(context);
        return ShownAsync(context, async () => shelf.Find(key, actor.PersonId) is { } draft ? await preview.OfDraftAsync(actor, draft, language ?? "en", paper ?? "A4", context.RequestAborted) : null);
    }

    private static async Task<IResult> ShownAsync(HttpContext context, Func<Task<byte[]?>> draw)
    {
        try
        {
            if (await draw() is not { } pdf)
            {
                return Results.NotFound();
            }

            SecurityHeaders.LetOwnPagesFrame(context);
            return Results.File(pdf, "application/pdf");
        }
        catch (NotPermittedException)
        {
            return Results.Forbid();
        }
        catch (RefusedException refusal)
        {
            SecurityHeaders.LetOwnPagesFrame(context);
            return Results.Text(refusal.Message, "text/plain; charset=utf-8", statusCode: StatusCodes.Status422UnprocessableEntity);
        }
    }

    private static async Task<IResult> LogoAsync(HttpContext context, string sha256, TemplateKeeping keeping)
    {
        try
        {
            return await keeping.LogoAsync(SessionIdentity.ActorOf(context), sha256, context.RequestAborted) is { } logo
                ? Results.File(logo.Bytes, logo.MediaType, $"logo-{sha256[..12]}.{(logo.MediaType == "image/png" ? "png" : "jpg")}")
                : Results.NotFound();
        }
        catch (NotPermittedException)
        {
            return Results.Forbid();
        }
    }
}
