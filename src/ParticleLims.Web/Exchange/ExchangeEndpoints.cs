using ParticleLims.Laboratory.Record;
using ParticleLims.Web.Shell;

namespace ParticleLims.Web.Exchange;

/// <summary>The files of an exchange: empty tables to fill in.</summary>
internal static class ExchangeEndpoints
{
    public static void MapEquipmentExchange(this IEndpointRouteBuilder routes)
    {
        routes.MapGet("/equipment/import/template.xlsx", () => Results.File(TableWriting.Workbook([.. RegisterSheet.All.Select(sheet => sheet.Template)]), TableWriting.WorkbookType, "equipment-template.xlsx"))
            .RequireAuthorization(new NeedsAttribute(Permission.KeepEquipment));
        routes.MapGet("/equipment/import/template/{kind}.csv", (string kind) => RegisterSheet.All.FirstOrDefault(sheet => sheet.FileName == kind) is { } sheet
            ? Results.File(TableWriting.Csv(sheet.Template), TableWriting.CsvType, $"{sheet.FileName}-template.csv")
            : Results.NotFound()).RequireAuthorization(new NeedsAttribute(Permission.KeepEquipment));
    }
}
