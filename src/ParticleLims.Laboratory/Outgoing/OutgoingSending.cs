using Microsoft.EntityFrameworkCore;
using ParticleLims.Laboratory.Record;

namespace ParticleLims.Laboratory.Outgoing;

/// <summary>Fetches the bytes of a kind of attachment when its message is sent. Each feature that sends files brings one.</summary>
public interface IAttachmentSource
{
    /// <summary>The kind.</summary>
    string Kind { get; }

    /// <summary>The bytes; null where there are none any more.</summary>
    Task<byte[]?> ReadAsync(Storage.LaboratoryContext data, Guid id, CancellationToken cancellation);
}

/// <summary>Hears within the same deed of a mail that was refused for good or came back. Each feature that mails to people it keeps brings one.</summary>
public interface IOutgoingRefusals
{
    /// <summary>It will not arrive.</summary>
    /// <param name="scope">The deed.</param>
    /// <param name="message">The mail.</param>
    /// <param name="words">What the other side said.</param>
    /// <param name="cancellation">Ends the deed before it is written.</param>
    Task RefusedAsync(DeedScope scope, OutgoingMessage message, string words, CancellationToken cancellation);
}

/// <summary>A file with its bytes.</summary>
public sealed record LetterFile(string FileName, string MediaType, byte[] Bytes);

/// <summary>A message with everything that is needed to send it.</summary>
/// <param name="Message">The message.</param>
/// <param name="Files">Its files with their bytes.</param>
/// <param name="Ways">The ways as they are set now.</param>
/// <param name="Missing">The name of a file whose bytes are gone; null when all are there.</param>
public sealed record Letter(OutgoingMessage Message, IReadOnlyList<LetterFile> Files, OutgoingWays Ways, string? Missing);

/// <summary>The program's own part: what is due, and what became of it. Every try stands in the record.</summary>
public sealed class OutgoingSending(WritePath writing, ReadPath reading, IEnumerable<IAttachmentSource> sources, IEnumerable<IOutgoingRefusals> listeners)
{
    private static readonly DeedKind SentDeed = new("outgoing.sent", "Message sent", Permission.ActAsProgram);
    private static readonly DeedKind FailedDeed = new("outgoing.failed", "Message not sent", Permission.ActAsProgram);
    private static readonly DeedKind RefusedDeed = new("outgoing.refused", "Message refused for good", Permission.ActAsProgram);
    private static readonly DeedKind BouncedDeed = new("outgoing.bounced", "Mail came back", Permission.ActAsProgram);

    /// <summary>What is due at an instant, the longest due first.</summary>
    public Task<List<Letter>> DueAsync(DateTimeOffset now, int take, CancellationToken cancellation) =>
        reading.ReadAsync(Actor.Program, Permission.ActAsProgram, async (data, _, token) =>
        {
            var due = await data.OutgoingMessages.Include(message => message.Attachments).Where(message => message.NextTryAt <= now).OrderBy(message => message.NextTryAt).Take(take).ToListAsync(token);
            var letters = new List<Letter>();
            foreach (var message in due)
            {
                var files = await FilesAsync(data, message, token);
                var missing = message.Attachments.FirstOrDefault(wanted => files.All(file => file.FileName != wanted.FileName))?.FileName;
                letters.Add(new Letter(message, files, (await OutgoingKeeping.OfAsync(data, token)).Ways, missing));
            }

            return letters;
        }, cancellation);

    /// <summary>It was sent.</summary>
    public Task<bool> SentAsync(Guid id, string outcome, CancellationToken cancellation) => TriedAsync(SentDeed, id, outcome, (scope, message, _) =>
    {
        message.Tries++;
        (message.State, message.SentAt, message.NextTryAt) = (OutgoingState.Sent, scope.Now, null);
        return Task.CompletedTask;
    }, cancellation);

    /// <summary>It was not: it waits twice as long as before, or is given up.</summary>
    public Task<bool> FailedAsync(Guid id, string outcome, CancellationToken cancellation) => TriedAsync(FailedDeed, id, outcome, (scope, message, _) =>
    {
        var wait = Backoff.After(++message.Tries);
        (message.State, message.NextTryAt) = (wait is null ? OutgoingState.GivenUp : OutgoingState.Waiting, scope.Now + wait);
        return Task.CompletedTask;
    }, cancellation);

    /// <summary>The other side refused it, and would again (RFC 5321, 4.2.1: a reply that begins with 5): it is not tried any more.</summary>
    public Task<bool> RefusedAsync(Guid id, string outcome, CancellationToken cancellation) => TriedAsync(RefusedDeed, id, outcome, (scope, message, token) =>
    {
        message.Tries++;
        return RefuseAsync(scope, message, outcome, token);
    }, cancellation);

    /// <summary>A mail that was taken came back (RFC 3464).</summary>
    /// <exception cref="RefusedException">There is no such mail, or it came back before.</exception>
    public Task<bool> BouncedAsync(Guid id, string outcome, CancellationToken cancellation) => TriedAsync(BouncedDeed, id, outcome, (scope, message, token) =>
        message.Way != OutgoingWay.Mail ? throw new RefusedException("no-mail", "This message was no mail; it cannot have come back.")
        : message.State == OutgoingState.Refused ? throw new RefusedException("message-refused", "This mail came back before.")
        : RefuseAsync(scope, message, outcome, token), cancellation);

    private Task<bool> TriedAsync(DeedKind kind, Guid id, string outcome, Func<DeedScope, OutgoingMessage, CancellationToken, Task> become, CancellationToken cancellation) =>
        writing.CarryOutAsync(new Deed(kind, Actor.Program), async (scope, token) =>
        {
            var message = await scope.FindAsync<OutgoingMessage>(id, "message", token);
            scope.About("OutgoingMessage", message.Id, message.Subject);
            scope.Data.Add(new OutgoingAttempt { Id = scope.NewId(), MessageId = id, At = scope.Now, Sent = ReferenceEquals(kind, SentDeed), Outcome = Short(outcome) });
            await become(scope, message, token);
            return true;
        }, cancellation);

    private async Task RefuseAsync(DeedScope scope, OutgoingMessage message, string outcome, CancellationToken cancellation)
    {
        (message.State, message.NextTryAt) = (OutgoingState.Refused, null);
        foreach (var listener in listeners)
        {
            await listener.RefusedAsync(scope, message, Short(outcome), cancellation);
        }
    }

    private async Task<IReadOnlyList<LetterFile>> FilesAsync(Storage.LaboratoryContext data, OutgoingMessage message, CancellationToken cancellation)
    {
        var files = new List<LetterFile>();
        foreach (var file in message.Attachments.OrderBy(file => file.Position))
        {
            if (sources.FirstOrDefault(source => source.Kind == file.SourceKind) is { } source && await source.ReadAsync(data, file.SourceId, cancellation) is { } bytes)
            {
                files.Add(new LetterFile(file.FileName, file.MediaType, bytes));
            }
        }

        return files;
    }

    // What a server answers may hold anything, of any length.
    private static string Short(string outcome)
    {
        var plain = string.Concat(outcome.Select(letter => char.IsControl(letter) || char.IsSurrogate(letter) ? ' ' : letter)).Trim();
        return plain.Length <= OutgoingTables.MostOutcome ? plain : plain[..OutgoingTables.MostOutcome];
    }
}
