using System.Security.Cryptography;

namespace ParticleLims.Web.Outgoing;

/// <summary>
/// The mail server's password and the webhook's key: from the environment (<c>PARTICLELIMS_MAIL_PASSWORD</c>, <c>PARTICLELIMS_WEBHOOK_KEY</c>) or from the files <c>mail-password</c> and
/// <c>webhook-key</c> in a folder of the data folder. Never in the database, in a log or on a screen.
/// </summary>
/// <param name="folder">The folder of the files.</param>
/// <param name="environment">Reads a variable of the environment.</param>
internal sealed class OutgoingSecrets(string folder, Func<string, string?> environment)
{
    /// <summary>The file of the mail server's password.</summary>
    public const string MailPasswordFile = "mail-password";

    /// <summary>The file of the webhook's key.</summary>
    public const string WebhookKeyFile = "webhook-key";

    private const int KeyBytes = 32;
    private const UnixFileMode OwnerAlone = UnixFileMode.UserRead | UnixFileMode.UserWrite;

    /// <summary>Where the files lie.</summary>
    public string Folder => folder;

    /// <summary>The mail server's password; null while there is none.</summary>
    public string? MailPassword => Read("PARTICLELIMS_MAIL_PASSWORD", MailPasswordFile);

    /// <summary>The key with which posts are signed; null while there is none.</summary>
    public string? WebhookKey => Read("PARTICLELIMS_WEBHOOK_KEY", WebhookKeyFile);

    /// <summary>Makes a key for the webhook unless there is one: 32 random bytes in hexadecimal, which the administrator carries over to the other side.</summary>
    public void MakeWebhookKey()
    {
        if (WebhookKey is not null)
        {
            return;
        }

        var options = new FileStreamOptions { Mode = FileMode.CreateNew, Access = FileAccess.Write };
        if (OperatingSystem.IsWindows())
        {
            Directory.CreateDirectory(folder);
        }
        else
        {
            Directory.CreateDirectory(folder, OwnerAlone | UnixFileMode.UserExecute);
            options.UnixCreateMode = OwnerAlone;
        }

        using var stream = new FileStream(Path.Combine(folder, WebhookKeyFile), options);
        stream.Write(System.Text.Encoding.ASCII.GetBytes(Convert.ToHexStringLower(RandomNumberGenerator.GetBytes(KeyBytes)) + "\n"));
        stream.Flush(flushToDisk: true);
    }

    private string? Read(string variable, string file)
    {
        var path = Path.Combine(folder, file);
        var text = environment(variable) ?? (File.Exists(path) ? File.ReadAllText(path).TrimEnd('\r', '\n') : null);
        return string.IsNullOrEmpty(text) ? null : text;
    }
}
