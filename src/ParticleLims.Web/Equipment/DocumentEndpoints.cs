using ParticleLims.Laboratory.Equipment;
using ParticleLims.Laboratory.Record;
using ParticleLims.Web.Shell;

namespace ParticleLims.Web.Equipment;

/// <summary>Documents of equipment as files: always handed out as a download under the program's own name, never shown as a page.</summary>
internal static class DocumentEndpoints
{
    public static void MapEquipmentDocuments(this IEndpointRouteBuilder routes) =>
        routes.MapGet("/equipment/documents/{id:guid}", DownloadAsync).RequireAuthorization(new NeedsAttribute(Permission.SeeLaboratory));

    private static async Task<IResult> DownloadAsync(HttpContext context, Guid id, EquipmentDocuments documents)
    {
        try
        {
            return await documents.OpenAsync(SessionIdentity.ActorOf(context), id, context.RequestAborted) is { } opened
                ? Results.File(opened.Bytes, opened.Document.MediaType, opened.Document.FileName)
                : Results.NotFound();
        }
        catch (NotPermittedException)
        {
            return Results.Forbid();
        }
    }
}
