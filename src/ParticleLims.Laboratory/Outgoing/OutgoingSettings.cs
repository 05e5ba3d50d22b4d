using ParticleLims.Laboratory.Storage;

namespace ParticleLims.Laboratory.Outgoing;

/// <summary>How messages leave. There is at most one row; without it, and by default, nothing does. Passwords and keys lie outside the database.</summary>
public sealed class OutgoingSettings : IVersioned
{
    /// <summary>The only key.</summary>
    public static Guid OnlyId { get; } = new("6c696d73-0000-7000-8000-000000000002");

    public Guid Id { get; init; } = OnlyId;

    /// <summary>The mail server; null when no mail is sent.</summary>
    public string? MailHost { get; set; }
    public int MailPort { get; set; } = MailServer.UsualPort;
    public MailSecurity MailSecurity { get; set; } = MailSecurity.StartTls;

    /// <summary>The name under which the program signs on there; null where the server asks for none.</summary>
    public string? MailUser { get; set; }

    /// <summary>Whom the mails come from.</summary>
    public string? MailFrom { get; set; }

    /// <summary>Where news is posted; null for nowhere.</summary>
    public string? WebhookAddress { get; set; }
    /// <summary>Which <see cref="PostedNews"/> are posted there, with commas between; null for none.</summary>
    public string? Posted { get; set; }
    public long Version { get; set; }

    /// <summary>The same as a list.</summary>
    public IReadOnlyList<string> PostedKinds => Posted?.Split(',') ?? [];

    /// <summary>Both ways in one.</summary>
    public OutgoingWays Ways => new(MailHost is null ? null : new MailServer(MailHost, MailPort, MailSecurity, MailUser, MailFrom ?? string.Empty), WebhookAddress);
}
