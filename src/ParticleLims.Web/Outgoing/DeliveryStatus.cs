using MimeKit;

namespace ParticleLims.Web.Outgoing;

/// <summary>A delivery status notification (RFC 3464) about one of the program's own mails: it did not arrive, and will not.</summary>
/// <param name="MessageId">The key of the mail that came back, from its <c>Message-Id</c>.</param>
/// <param name="Words">Status, recipient and what the other side said.</param>
internal sealed record DeliveryStatus(Guid MessageId, string Words)
{
    /// <summary>Reads a mail.</summary>
    /// <param name="mail">The whole mail, as a mail program saves it.</param>
    /// <param name="cancellation">Ends it.</param>
    /// <exception cref="NotADeliveryStatusException">It is no notification, not of one of our mails, or not of a failure for good.</exception>
    public static async Task<DeliveryStatus> ReadAsync(Stream mail, CancellationToken cancellation)
    {
        MimeMessage message;
        try
        {
            message = await MimeMessage.LoadAsync(mail, cancellation);
        }
        catch (FormatException fault)
        {
            throw new NotADeliveryStatusException("It is no mail.", fault);
        }

        using (message)
        {
            var report = message.BodyParts.OfType<MessageDeliveryStatus>().FirstOrDefault() ?? throw new NotADeliveryStatusException("It is no delivery status notification (RFC 3464): it has no part message/delivery-status.");
            var failed = report.StatusGroups.Skip(1).FirstOrDefault(IsFailedForGood) ?? throw new NotADeliveryStatusException("It tells of no failure for good; there is nothing to do.");
            return new DeliveryStatus(KeyOf(message), WordsOf(failed));
        }
    }

    // RFC 3464, 2.3.3 and 2.3.4: the action, and a status whose class 5 means that it would fail again (RFC 3463).
    private static bool IsFailedForGood(HeaderList recipient) =>
        string.Equals(recipient["Action"]?.Trim(), "failed", StringComparison.OrdinalIgnoreCase) && recipient["Status"]?.Trim() is { } status && status.StartsWith("5.", StringComparison.Ordinal);

    private static string WordsOf(HeaderList recipient)
    {
        var (to, said) = (recipient["Final-Recipient"] ?? recipient["Original-Recipient"], recipient["Diagnostic-Code"]);
        return string.Join(": ", new[] { recipient["Status"], Value(to), Value(said) }.Where(part => !string.IsNullOrWhiteSpace(part)).Select(part => part!.Trim()));
    }

    // "rfc822; nobody@veldt.example", "smtp; 550 5.1.1 no such user": the type before the semicolon says nothing to people.
    private static string? Value(string? field) => field?.Split(';', 2)[^1].Trim();

    private static Guid KeyOf(MimeMessage notification)
    {
        var returned = notification.BodyParts.OfType<MessagePart>().Select(part => part.Message?.MessageId)
            .Concat(notification.BodyParts.OfType<TextPart>().Where(part => part.ContentType.IsMimeType("text", "rfc822-headers")).Select(part => HeadersOf(part)))
            .OfType<string>();
        return returned.Select(id => id.Trim('<', '>', ' ')).Where(id => id.EndsWith(MailCarrier.MessageIdHost, StringComparison.OrdinalIgnoreCase))
            .Select(id => Guid.TryParseExact(id[..^MailCarrier.MessageIdHost.Length], "N", out var key) ? key : (Guid?)null).FirstOrDefault(key => key is not null)
            ?? throw new NotADeliveryStatusException("It does not hold the mail that came back, or that was none of this laboratory's.");
    }

    private static string? HeadersOf(TextPart part)
    {
        using var headers = new MemoryStream(System.Text.Encoding.UTF8.GetBytes(part.Text + "\r\n"));
        return HeaderList.Load(headers)[HeaderId.MessageId];
    }
}

/// <summary>A mail is no notification that something can be done with; the words say why.</summary>
internal sealed class NotADeliveryStatusException(string words, Exception? fault = null) : Exception(words, fault);
