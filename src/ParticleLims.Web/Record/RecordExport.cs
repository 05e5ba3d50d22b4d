using System.Globalization;
using System.Text;
using System.Text.Encodings.Web;
using System.Text.Json;
using ParticleLims.CertificatePdf.Record;
using ParticleLims.Laboratory.Record;
using ParticleLims.Laboratory.Settings;
using ParticleLims.Web.Shell;
using LaboratoryRecordPage = ParticleLims.Laboratory.Record.RecordPage;

namespace ParticleLims.Web.Record;

/// <summary>The audit trail as a file: CSV and PDF for people, JSON with every hash for programs that check the chain. Each leaves an event first, and goes up to that event.</summary>
internal static class RecordExport
{
    private const int PageSize = 500;
    private static readonly JsonSerializerOptions Readable = new(JsonSerializerDefaults.Web) { Encoder = JavaScriptEncoder.UnsafeRelaxedJsonEscaping };

    public static void MapRecordExport(this IEndpointRouteBuilder routes) =>
        routes.MapGet("/record/export", ExportAsync).RequireAuthorization(new NeedsAttribute(Permission.ReadRecord));

    private static async Task<IResult> ExportAsync(
        HttpContext context, RecordReading record, RecordExporting exporting, SettingsKeeping settings, LaboratoryClock clock, string? format, string? words, string? from, string? to, Guid? subject, bool? whole)
    {
        await clock.PrepareAsync(context.RequestAborted);
        var filter = RecordFilter.Read(words, from, to, subject, whole);
        var (actor, question) = (SessionIdentity.ActorOf(context), filter.Question(clock));
        var first = await record.FindAsync(actor, question, 0, 1, context.RequestAborted);
        var form = format?.ToLowerInvariant() switch { "json" => "json", "pdf" => "pdf", _ => "csv" };
        if (form == "pdf" && first.Total > TrailPdf.MostEvents)
        {
            return Results.Text(string.Create(CultureInfo.InvariantCulture, $"{first.Total} events are too many to print; at most {TrailPdf.MostEvents} are. Choose a thing, words or days, or take CSV or JSON."), statusCode: StatusCodes.Status400BadRequest);
        }

        var asked = filter.InWords(first.Subject);
        question = question with { Before = await exporting.NoteTrailAsync(actor, form.ToUpperInvariant(), asked, context.RequestAborted) + 1 };
        var events = AllAsync(record, actor, question, context.RequestAborted);
        context.Response.Headers.ContentDisposition = $"attachment; filename=\"audit-trail-{clock.Today.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture)}.{form}\"";
        return form switch
        {
            "pdf" => Pdf(await record.FindAsync(actor, question with { WithNames = true }, 0, TrailPdf.MostEvents, context.RequestAborted), await settings.FindAsync(context.RequestAborted), asked, clock),
            "json" => await WriteAsync(context, events, "application/json; charset=utf-8", "[", (one, isFirst) => (isFirst ? "\n" : ",\n") + Json(one), "\n]\n"),
            _ => await WriteAsync(context, events, "text/csv; charset=utf-8", CsvHead, (one, _) => Csv(one), string.Empty),
        };
    }

    private static async Task<IResult> WriteAsync(HttpContext context, IAsyncEnumerable<RecordEvent> events, string type, string begin, Func<RecordEvent, bool, string> write, string end)
    {
        context.Response.ContentType = type;
        await context.Response.WriteAsync(begin, context.RequestAborted);
        var isFirst = true;
        await foreach (var one in events)
        {
            await context.Response.WriteAsync(write(one, isFirst), context.RequestAborted);
            isFirst = false;
        }

        await context.Response.WriteAsync(end, context.RequestAborted);
        return Results.Empty;
    }

    private static IResult Pdf(LaboratoryRecordPage found, LaboratorySettings? laboratory, string asked, LaboratoryClock clock)
    {
        var reader = new RecordReader(clock.Stamp, found.Names);
        var rows = found.Events.Select(one => new TrailRow(
            one.Sequence.ToString(CultureInfo.InvariantCulture), clock.Stamp(one.At), $"{one.PersonName}, {one.Terminal}", DeedWords.Of(one.Code) + (one.Reason is null ? string.Empty : $". Reason: {one.Reason}"),
            $"{RecordDifference.Words(one.SubjectKind)} {one.SubjectLabel}", Shorter(Printed(one, reader), MostPrinted), one.Hash)).ToList();
        return Results.File(TrailPdf.Draw(new Trail(laboratory?.Name ?? "Laboratory", asked, clock.ZoneName, clock.Stamp(clock.Now), laboratory?.Demonstration == true, rows)), "application/pdf");
    }

    private const int MostPrinted = 3_000;
    private const int MostOfAValue = 160;

    // An evaluation is pages of numbers, and an import adds thousands of things in one deed: what is left out on paper stands in the other forms.
    private static string Shorter(string text, int most) => text.Length <= most ? text : text[..(char.IsHighSurrogate(text[most - 1]) ? most - 1 : most)] + " … (cut off here; CSV and JSON have all of it)";

    private static string Printed(RecordEvent one, RecordReader reader) => string.Join("; ", RecordDifference.InWords(one, reader).SelectMany(thing => thing.Values.Select(value =>
        $"{thing.Thing} {value.Name}: {(thing.Change == "changed" ? $"{Printed(value.Before)} → {Printed(value.After)}" : Printed(value.After ?? value.Before))}")));

    private static string Printed(string? value) => value is null ? "–" : Shorter(value, MostOfAValue);

    private static async IAsyncEnumerable<RecordEvent> AllAsync(RecordReading record, Actor actor, RecordQuestion question, [System.Runtime.CompilerServices.EnumeratorCancellation] CancellationToken cancellation)
    {
        while ((await record.FindAsync(actor, question, 0, PageSize, cancellation)).Events is { Count: > 0 } page)
        {
            foreach (var one in page)
            {
                yield return one;
            }

            question = question with { Before = page[^1].Sequence };
        }
    }

    private static string Json(RecordEvent one) => JsonSerializer.Serialize(
        new { one.Sequence, At = RecordChain.InstantText(one.At), one.PersonId, one.PersonName, one.Terminal, one.Code, Deed = DeedWords.Of(one.Code), one.SubjectKind, one.SubjectId, one.SubjectLabel, one.Reason, one.Changes, one.PreviousHash, one.Hash },
        Readable);

    private const string CsvHead = "number,at,person,terminal,deed,code,subject kind,subject,reason,changes,hash\r\n";

    private static string Csv(RecordEvent one) => string.Join(
        ',',
        new[] { one.Sequence.ToString(CultureInfo.InvariantCulture), RecordChain.InstantText(one.At), one.PersonName, one.Terminal, DeedWords.Of(one.Code), one.Code, one.SubjectKind, one.SubjectLabel, one.Reason ?? string.Empty, Differences(one), one.Hash }.Select(Cell)) + "\r\n";

    private static string Differences(RecordEvent one) => string.Join("; ", RecordDifference.Of(one).SelectMany(thing => thing.Values.Select(value => $"{thing.Thing} {value.Name}: {value.Before ?? "–"} → {value.After ?? "–"}")));

    /// <summary>One cell of CSV (RFC 4180). A spreadsheet would run a cell that begins like a formula; an apostrophe before it makes it text.</summary>
    internal static string Cell(string text)
    {
        var harmless = text.Length > 0 && "=+-@\t\r".Contains(text[0], StringComparison.Ordinal) ? "'" + text : text;
        return harmless.AsSpan().IndexOfAny("\",\r\n") < 0 ? harmless : new StringBuilder(harmless).Replace("\"", "\"\"").Insert(0, '"').Append('"').ToString();
    }
}
