using System.Text.Encodings.Web;
using System.Text.Json;
using ParticleLims.Laboratory.Record;

namespace ParticleLims.Laboratory.Outgoing;

/// <summary>A file to send along.</summary>
/// <param name="FileName">Its name on the other side.</param>
/// <param name="MediaType">Its media type.</param>
/// <param name="SourceKind">Which <see cref="IAttachmentSource"/> has the bytes.</param>
/// <param name="SourceId">Under which key.</param>
public sealed record NewsFile(string FileName, string MediaType, string SourceKind, Guid SourceId);

/// <summary>Something to tell somebody outside.</summary>
/// <param name="Kind">What kind of news, for programs: <c>record-head</c>.</param>
/// <param name="About">What it is about, as the record names it.</param>
/// <param name="Subject">In one line, without control characters.</param>
/// <param name="Text">In full.</param>
/// <param name="Files">What goes with it.</param>
public sealed record News(string Kind, (string Kind, Guid Id) About, string Subject, string Text, IReadOnlyList<NewsFile>? Files = null)
{
    /// <summary>The same for programs, written as JSON into a post; null where the words are all there is.</summary>
    public object? Facts { get; init; }
}

/// <summary>Queues news within the deed that it tells of.</summary>
internal static class NewsQueue
{
    private static readonly JsonSerializerOptions Readable = new(JsonSerializerDefaults.Web) { Encoder = JavaScriptEncoder.UnsafeRelaxedJsonEscaping };

    /// <summary>Queues it by mail to each addressee; nothing while no mail server is set.</summary>
    public static async Task<int> MailAsync(this DeedScope scope, News news, IEnumerable<string> addressees, CancellationToken cancellation)
    {
        if (!(await OutgoingKeeping.OfAsync(scope.Data, cancellation)).Ways.IsOpen(OutgoingWay.Mail))
        {
            return 0;
        }

        var all = addressees.ToList();
        all.ForEach(addressee => Add(scope, news, OutgoingWay.Mail, addressee));
        return all.Count;
    }

    /// <summary>Queues it by mail to one addressee; answers the message, or null while no mail server is set.</summary>
    public static async Task<Guid?> MailToAsync(this DeedScope scope, News news, string addressee, CancellationToken cancellation) =>
        (await OutgoingKeeping.OfAsync(scope.Data, cancellation)).Ways.IsOpen(OutgoingWay.Mail) ? Add(scope, news, OutgoingWay.Mail, addressee) : null;

    /// <summary>Queues it for the webhook where the administrator chose its kind.</summary>
    public static async Task PostChosenAsync(this DeedScope scope, News news, CancellationToken cancellation)
    {
        if ((await OutgoingKeeping.OfAsync(scope.Data, cancellation)).PostedKinds.Contains(news.Kind))
        {
            await scope.PostAsync(news, cancellation);
        }
    }

    /// <summary>Queues it for the webhook; nothing while none is set.</summary>
    public static async Task<int> PostAsync(this DeedScope scope, News news, CancellationToken cancellation)
    {
        if ((await OutgoingKeeping.OfAsync(scope.Data, cancellation)).WebhookAddress is not { } address)
        {
            return 0;
        }

        Add(scope, news, OutgoingWay.Webhook, address);
        return 1;
    }

    private static Guid Add(DeedScope scope, News news, OutgoingWay way, string addressee)
    {
        var id = scope.NewId();
        scope.Data.Add(new OutgoingMessage
        {
            Id = id, Kind = news.Kind, Way = way, Addressee = addressee, Subject = OneLine(news.Subject), Text = news.Text, SubjectKind = news.About.Kind, SubjectId = news.About.Id, Facts = news.Facts is { } facts ? JsonSerializer.Serialize(facts, Readable) : null, QueuedAt = scope.Now, NextTryAt = scope.Now,
            Attachments = [.. (news.Files ?? []).Select((file, at) => new OutgoingAttachment { MessageId = id, Position = at + 1, FileName = file.FileName, MediaType = file.MediaType, SourceKind = file.SourceKind, SourceId = file.SourceId })],
        });
        return id;
    }

    // A line break in a subject would begin another header.
    private static string OneLine(string text)
    {
        var line = string.Concat(text.Select(letter => char.IsControl(letter) ? ' ' : letter));
        return line.Length <= 200 ? line : line[..(char.IsHighSurrogate(line[198]) ? 198 : 199)] + "…";
    }
}
