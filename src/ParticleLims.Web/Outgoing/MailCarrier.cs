using System.Net.Sockets;
using MailKit;
using MailKit.Net.Smtp;
using MailKit.Security;
using MimeKit;
using ParticleLims.Laboratory.Outgoing;

namespace ParticleLims.Web.Outgoing;

/// <summary>By mail (SMTP, RFC 5321).</summary>
internal sealed class MailCarrier(OutgoingSecrets secrets, CarryingTime time) : ICarrier
{
    /// <summary>What stands after a message's key in its <c>Message-Id</c>; a mail that comes back is known by it.</summary>
    public const string MessageIdHost = "@particlelims.invalid";

    /// <inheritdoc />
    public OutgoingWay Way => OutgoingWay.Mail;

    /// <inheritdoc />
    public async Task<string> CarryAsync(Letter letter, CancellationToken cancellation)
    {
        var server = letter.Ways.Mail ?? throw new NotCarriedException("No mail server is set any more.");
        using var mail = Write(letter, server);
        using var client = new SmtpClient { Timeout = (int)time.Limit.TotalMilliseconds };
        using var limit = CancellationTokenSource.CreateLinkedTokenSource(cancellation);
        limit.CancelAfter(time.Limit);
        try
        {
            return await SendAsync(client, mail, server, limit.Token);
        }
        catch (OperationCanceledException fault) when (!cancellation.IsCancellationRequested)
        {
            throw new NotCarriedException(FormattableString.Invariant($"{server.Host} did not answer within {time.Limit.TotalSeconds:0.#} seconds."), fault);
        }
        catch (Exception fault) when (Words(fault, server.Host) is { } words)
        {
            throw new NotCarriedException(words, fault) { ForGood = IsForGood(fault) };
        }
    }

    // RFC 5321, 4.2.1: a reply that begins with 5 is permanent. Only of the addressee or the mail itself; one about signing on or the sender is for the administrator to mend.
    private static bool IsForGood(Exception fault) =>
        fault is SmtpCommandException { ErrorCode: SmtpErrorCode.RecipientNotAccepted or SmtpErrorCode.MessageNotAccepted } refused && (int)refused.StatusCode >= 500;

    private async Task<string> SendAsync(SmtpClient client, MimeMessage mail, MailServer server, CancellationToken cancellation)
    {
        await client.ConnectAsync(server.Host, server.Port, Security(server.Security), cancellation);
        if (server.User is { } user)
        {
            await client.AuthenticateAsync(user, secrets.MailPassword ?? throw new NotCarriedException($"There is no password for the mail server: write it into {OutgoingSecrets.MailPasswordFile} in the folder of the secrets."), cancellation);
        }

        var answer = await client.SendAsync(mail, cancellation);
        await LeaveAsync(client, server, cancellation);
        return $"Taken by {server.Host}: {answer}";
    }

    // The mail was taken already: whatever happens at leaving does not send it twice.
    private static async Task LeaveAsync(SmtpClient client, MailServer server, CancellationToken cancellation)
    {
        try
        {
            await client.DisconnectAsync(quit: true, cancellation);
        }
        catch (Exception fault) when (fault is OperationCanceledException || Words(fault, server.Host) is not null)
        {
            // It closes with the client.
        }
    }

    private static MimeMessage Write(Letter letter, MailServer server)
    {
        var message = letter.Message;
        var body = new BodyBuilder { TextBody = message.Text };
        foreach (var file in letter.Files)
        {
            body.Attachments.Add(file.FileName, file.Bytes, ContentType.Parse(file.MediaType));
        }

        // The same key at each try: a server or a reader that has it already drops the second.
        var mail = new MimeMessage([MailboxAddress.Parse(server.From)], [MailboxAddress.Parse(message.Addressee)], message.Subject, body.ToMessageBody())
        {
            MessageId = $"{message.Id:N}{MessageIdHost}", Date = message.QueuedAt,
        };

        // RFC 3834: nobody's program answers it with "I am away".
        mail.Headers.Add("Auto-Submitted", "auto-generated");
        return mail;
    }

    private static SecureSocketOptions Security(MailSecurity security) => security switch
    {
        MailSecurity.StartTls => SecureSocketOptions.StartTls,
        MailSecurity.Tls => SecureSocketOptions.SslOnConnect,
        MailSecurity.None => SecureSocketOptions.None,
        _ => throw new ArgumentOutOfRangeException(nameof(security), security, "No security."),
    };

    private static string? Words(Exception fault, string host) => fault switch
    {
        AuthenticationException => $"{host} refuses the name or the password.",
        SslHandshakeException => $"No safe way to {host}: its certificate is not trusted here, or the port speaks no TLS.",
        NotSupportedException => $"{host} does not offer what is asked of it: {fault.Message}",
        SmtpCommandException command => $"{host} refuses: {command.Message}",
        ProtocolException or SmtpProtocolException => $"{host} does not answer as a mail server does.",
        SocketException or IOException or TimeoutException => $"{host} cannot be reached: {fault.Message}",
        _ => null,
    };
}
