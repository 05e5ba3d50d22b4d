using System.Collections.Concurrent;
using System.Net;
using System.Net.Sockets;
using System.Text;

namespace ParticleLims.Web.Tests.Outgoing;

/// <summary>A mail server of a few lines on the loopback address, which speaks what SMTP (RFC 5321, RFC 4954) asks of it and keeps what it took.</summary>
internal sealed class PostOffice : IAsyncDisposable
{
    private readonly TcpListener listener = new(IPAddress.Loopback, 0);
    private readonly CancellationTokenSource closing = new();
    private readonly Task serving;
    private readonly string? password;

    private PostOffice(string? password)
    {
        this.password = password;
        listener.Start();
        serving = ServeAsync();
    }

    /// <summary>Where it listens.</summary>
    public int Port => ((IPEndPoint)listener.LocalEndpoint).Port;

    /// <summary>What it took: headers and body.</summary>
    public ConcurrentQueue<string> Taken { get; } = [];

    /// <summary>What it answers to an addressee.</summary>
    public string ToAddressee { get; set; } = "250 OK";

    /// <summary>What it answers to a whole mail.</summary>
    public string ToMail { get; set; } = "250 taken as 4711";

    /// <summary>Opens one, which asks for a password where one is given.</summary>
    public static PostOffice Open(string? password = null) => new(password);

    public async ValueTask DisposeAsync()
    {
        await closing.CancelAsync();
        listener.Stop();
        await serving;
        closing.Dispose();
    }

    private async Task ServeAsync()
    {
        try
        {
            while (true)
            {
                using var client = await listener.AcceptTcpClientAsync(closing.Token);
                await SpeakAsync(client);
            }
        }
        catch (Exception fault) when (fault is OperationCanceledException or SocketException or ObjectDisposedException or IOException)
        {
            // It closes.
        }
    }

    private async Task SpeakAsync(TcpClient client)
    {
        using var reader = new StreamReader(client.GetStream(), Encoding.UTF8);
        await using var writer = new StreamWriter(client.GetStream(), new UTF8Encoding(false)) { AutoFlush = true, NewLine = "\r\n" };
        await writer.WriteLineAsync("220 post.example ready");
        while (await reader.ReadLineAsync(closing.Token) is { } line)
        {
            await writer.WriteLineAsync(line.Split(' ')[0].ToUpperInvariant() switch
            {
                "EHLO" => password is null ? "250 post.example" : "250-post.example\r\n250 AUTH PLAIN",
                "AUTH" => Encoding.UTF8.GetString(Convert.FromBase64String(line.Split(' ')[^1])).EndsWith("\0" + password, StringComparison.Ordinal) ? "235 welcome" : "535 no",
                "RCPT" => ToAddressee,
                "DATA" => "354 go on",
                "QUIT" => "221 bye",
                _ => "250 OK",
            });
            if (line == "DATA")
            {
                var mail = await MailAsync(reader);
                if (ToMail[0] == '2')
                {
                    Taken.Enqueue(mail);
                }

                await writer.WriteLineAsync(ToMail);
            }
        }
    }

    private async Task<string> MailAsync(StreamReader reader)
    {
        var mail = new StringBuilder();
        while (await reader.ReadLineAsync(closing.Token) is { } line and not ".")
        {
            mail.Append(line).Append('\n');
        }

        return mail.ToString();
    }
}
