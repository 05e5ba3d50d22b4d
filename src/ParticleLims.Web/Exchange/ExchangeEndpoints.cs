using System.Globalization;
using ParticleLims.Laboratory.Exchange;
using ParticleLims.Laboratory.Record;
using ParticleLims.Web.Shell;

namespace ParticleLims.Web.Exchange;

/// <summary>The files of an exchange: empty tables to fill in, and the register as it stands.</summary>
internal static class ExchangeEndpoints
{
    private const string WorkbookFile = "equipment.xlsx";

    public static void MapEquipmentExchange(this IEndpointRouteBuilder routes)
    {
        routes.MapGet("/equipment/import/template/{file}", Template).RequireAuthorization(new NeedsAttribute(Permission.KeepEquipment));
        routes.MapGet("/equipment/export/{file}", ExportAsync).RequireAuthorization(new NeedsAttribute(Permission.SeeLaboratory));
    }

    private static IResult Template(string file)
    {
        if (file == WorkbookFile)
        {
            return Results.File(TableWriting.Workbook([.. RegisterSheet.All.Select(sheet => sheet.Template)]), TableWriting.WorkbookType, "equipment-template.xlsx");
        }

        return RegisterSheet.All.FirstOrDefault(sheet => file == $"{sheet.FileName}.csv") is { } one
            ? Results.File(TableWriting.Csv(one.Template), TableWriting.CsvType, $"{one.FileName}-template.csv")
            : Results.NotFound();
    }

    private static async Task<IResult> ExportAsync(HttpContext context, string file, RegisterReading register, RecordExporting exporting, LaboratoryClock clock)
    {
        try
        {
            await clock.PrepareAsync(context.RequestAborted);
            var sheets = RegisterExport.Sheets(await register.AllAsync(SessionIdentity.ActorOf(context), context.RequestAborted), clock);
            var day = clock.Today.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture);
            if (file != WorkbookFile && !(file.EndsWith(".csv", StringComparison.Ordinal) && sheets.ContainsKey(file[..^4])))
            {
                return Results.NotFound();
            }

            await exporting.NoteRegisterAsync(SessionIdentity.ActorOf(context), file, context.RequestAborted);
            return file == WorkbookFile ? Results.File(TableWriting.Workbook([.. sheets.Values]), TableWriting.WorkbookType, $"equipment-{day}.xlsx")
                : Results.File(TableWriting.Csv(sheets[file[..^4]]), TableWriting.CsvType, $"{file[..^4]}-{day}.csv");
        }
        catch (NotPermittedException)
        {
            return Results.Forbid();
        }
    }
}
