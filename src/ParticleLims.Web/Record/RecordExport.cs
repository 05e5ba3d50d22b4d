using System.Globalization;
using System.Text;
using System.Text.Encodings.Web;
using System.Text.Json;
using ParticleLims.Laboratory.Record;
using ParticleLims.Web.Shell;

namespace ParticleLims.Web.Record;

/// <summary>The audit trail as a file: CSV for people, JSON with every hash for programs that check the chain.</summary>
internal static class RecordExport
{
    private const int PageSize = 500;
    private static readonly JsonSerializerOptions Readable = new(JsonSerializerDefaults.Web) { Encoder = JavaScriptEncoder.UnsafeRelaxedJsonEscaping };

    public static void MapRecordExport(this IEndpointRouteBuilder routes) =>
        routes.MapGet("/record/export", ExportAsync).RequireAuthorization(new NeedsAttribute(Permission.ReadRecord));

    private static async Task ExportAsync(HttpContext context, RecordReading record, LaboratoryClock clock, string? format, string? words, string? from, string? to, Guid? subject)
    {
        await clock.PrepareAsync(context.RequestAborted);
        var asJson = string.Equals(format, "json", StringComparison.OrdinalIgnoreCase);
        var question = RecordFilter.Read(words, from, to, subject).Question(clock);
        var actor = SessionIdentity.ActorOf(context);
        context.Response.ContentType = asJson ? "application/json; charset=utf-8" : "text/csv; charset=utf-8";
        context.Response.Headers.ContentDisposition = $"attachment; filename=\"audit-trail-{clock.Today.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture)}.{(asJson ? "json" : "csv")}\"";
        await context.Response.WriteAsync(asJson ? "[" : CsvHead, context.RequestAborted);
        var first = true;
        await foreach (var one in AllAsync(record, actor, question, context.RequestAborted))
        {
            await context.Response.WriteAsync(asJson ? (first ? "\n" : ",\n") + Json(one) : Csv(one), context.RequestAborted);
            first = false;
        }

        await context.Response.WriteAsync(asJson ? "\n]\n" : string.Empty, context.RequestAborted);
    }

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
