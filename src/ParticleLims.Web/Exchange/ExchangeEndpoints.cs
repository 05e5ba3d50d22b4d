using ParticleLims.Laboratory.Record;
using ParticleLims.Web.Shell;

namespace ParticleLims.Web.Exchange;

/// <summary>The files of an exchange: empty tables to fill in.</summary>
internal static class ExchangeEndpoints
{
    public static void MapEquipmentExchange(this IEndpointRouteBuilder routes) =>
        routes.MapGet("/equipment/import/template/{file}", Template).RequireAuthorization(new NeedsAttribute(Permission.KeepEquipment));

    private static IResult Template(string file)
    {
        if (file == "equipment.xlsx")
        {
            return Results.File(TableWriting.Workbook([.. RegisterSheet.All.Select(sheet => sheet.Template)]), TableWriting.WorkbookType, "equipment-template.xlsx");
        }

        return RegisterSheet.All.FirstOrDefault(sheet => file == $"{sheet.FileName}.csv") is { } one
            ? Results.File(TableWriting.Csv(one.Template), TableWriting.CsvType, $"{one.FileName}-template.csv")
            : Results.NotFound();
    }
}
