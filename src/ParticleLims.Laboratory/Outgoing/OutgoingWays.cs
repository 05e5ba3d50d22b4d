using System.Globalization;
using System.Net.Mail;
using ParticleLims.Laboratory.Record;

namespace ParticleLims.Laboratory.Outgoing;

/// <summary>How the way to the mail server is kept from being read.</summary>
public enum MailSecurity
{
    /// <summary>Begins in clear and changes to TLS before anything is said (RFC 3207); refused where the server cannot.</summary>
    StartTls,
    /// <summary>TLS from the first byte (RFC 8314).</summary>
    Tls,
    /// <summary>In clear: to a server on this machine only.</summary>
    None,
}

/// <summary>The laboratory's mail server.</summary>
/// <param name="Host">Its name or address.</param>
/// <param name="Port">Its port.</param>
/// <param name="Security">How the way there is kept from being read.</param>
/// <param name="User">The name for signing on there; null where it asks for none.</param>
/// <param name="From">Whom the mails come from.</param>
public sealed record MailServer(string Host, int Port, MailSecurity Security, string? User, string From)
{
    /// <summary>Message submission (RFC 6409).</summary>
    public const int UsualPort = 587;

    internal void Check()
    {
        if (Uri.CheckHostName(Host) == UriHostNameType.Unknown)
        {
            throw new RefusedException("mail-host", "The mail server is a name such as mail.example, or an address. It has no spaces, no scheme and no port.", "mailHost");
        }

        if (Port is < 1 or > 65535)
        {
            throw new RefusedException("mail-port", string.Create(CultureInfo.InvariantCulture, $"A port is from 1 to 65535, not {Port}. Usual are 587 (STARTTLS) and 465 (TLS)."), "mailPort");
        }

        if (Security == MailSecurity.None && !OutgoingWays.IsThisMachine(Host))
        {
            throw new RefusedException("mail-in-clear", "Mail goes in clear only to a server on this machine. Choose STARTTLS or TLS.", "mailSecurity");
        }

        MailAddresses.Read(From, "mailFrom");
    }
}

/// <summary>The ways out, each null while it is shut.</summary>
/// <param name="Mail">The mail server.</param>
/// <param name="WebhookAddress">Where news is posted.</param>
public sealed record OutgoingWays(MailServer? Mail, string? WebhookAddress)
{
    /// <summary>Whether the way is open.</summary>
    public bool IsOpen(OutgoingWay way) => way == OutgoingWay.Mail ? Mail is not null : WebhookAddress is not null;

    internal static bool IsThisMachine(string host) => host is "localhost" || (System.Net.IPAddress.TryParse(host.Trim('[', ']'), out var address) && System.Net.IPAddress.IsLoopback(address));

    internal void Check()
    {
        Mail?.Check();
        if (WebhookAddress is null)
        {
            return;
        }

        if (!Uri.TryCreate(WebhookAddress, UriKind.Absolute, out var address) || address.UserInfo.Length > 0 || !(address.Scheme == Uri.UriSchemeHttps || (address.Scheme == Uri.UriSchemeHttp && IsThisMachine(address.Host))))
        {
            throw new RefusedException("webhook-address", "A webhook has an address such as https://watch.example/laboratory, without a password in it. In clear (http) it goes only to this machine.", "webhookAddress");
        }
    }
}

/// <summary>Mail addresses as people type them: one or several, with commas between.</summary>
public static class MailAddresses
{
    /// <summary>The addresses.</summary>
    /// <exception cref="RefusedException">One of them is none.</exception>
    public static IReadOnlyList<string> Read(string? text, string member)
    {
        var all = (text ?? string.Empty).Split(',', StringSplitOptions.TrimEntries | StringSplitOptions.RemoveEmptyEntries);
        if (all.Length == 0 || Array.Exists(all, one => one.Length > 320 || one.Any(char.IsControl) || !MailAddress.TryCreate(one, out _)))
        {
            throw new RefusedException("mail-address", $"“{text}” is no mail address. One reads like watch@tarnfell.example; several have commas between them.", member);
        }

        return all;
    }
}
