using System.Net;
using System.Net.Sockets;
using System.Text;

namespace ParticleLims.TestLaboratory.Databases;

/// <summary>Whether a Docker engine answers, asked in at most two seconds.</summary>
internal static class DockerEngine
{
    private const string DefaultSocket = "/var/run/docker.sock";

    public static async Task<bool> AnswersAsync()
    {
        if (EndPoint(Environment.GetEnvironmentVariable("DOCKER_HOST")) is not { } engine)
        {
            return false;
        }

        using var limit = new CancellationTokenSource(TimeSpan.FromSeconds(2));
        using var socket = new Socket(engine.AddressFamily, SocketType.Stream, engine is UnixDomainSocketEndPoint ? ProtocolType.Unspecified : ProtocolType.Tcp);
        try
        {
            await socket.ConnectAsync(engine, limit.Token);
            await socket.SendAsync("GET /_ping HTTP/1.0\r\nHost: docker\r\n\r\n"u8.ToArray(), limit.Token);
            var answer = new byte[64];
            var length = await socket.ReceiveAsync(answer, limit.Token);
            return Encoding.ASCII.GetString(answer, 0, length).Contains(" 200 ", StringComparison.Ordinal);
        }
        catch (Exception refused) when (refused is SocketException or OperationCanceledException)
        {
            return false;
        }
    }

    private static EndPoint? EndPoint(string? host)
    {
        if (string.IsNullOrEmpty(host))
        {
            return File.Exists(DefaultSocket) ? new UnixDomainSocketEndPoint(DefaultSocket) : null;
        }

        return Uri.TryCreate(host, UriKind.Absolute, out var address) ? address.Scheme switch
        {
            "unix" => new UnixDomainSocketEndPoint(address.AbsolutePath),
            "tcp" => IPAddress.TryParse(address.Host, out var number) ? new IPEndPoint(number, address.Port) : new DnsEndPoint(address.Host, address.Port, AddressFamily.InterNetwork),
            _ => null,
        } : null;
    }
}
