using System.Net.Http.Headers;
using System.Text.Encodings.Web;
using System.Text.Json;
using System.Text.Json.Nodes;
using ParticleLims.Laboratory.Outgoing;
using ParticleLims.Laboratory.Record;

namespace ParticleLims.Web.Outgoing;

/// <summary>As a signed post of JSON. No redirect is followed: the key speaks to the address that was set and to no other.</summary>
internal sealed class WebhookCarrier(OutgoingSecrets secrets, CarryingTime time, TimeProvider clock) : ICarrier, IDisposable
{
    private static readonly JsonSerializerOptions Readable = new(JsonSerializerDefaults.Web) { Encoder = JavaScriptEncoder.UnsafeRelaxedJsonEscaping };
    private readonly HttpClient client = new(new SocketsHttpHandler { AllowAutoRedirect = false, UseCookies = false, PooledConnectionLifetime = TimeSpan.FromMinutes(5) }) { Timeout = time.Limit };

    /// <inheritdoc />
    public OutgoingWay Way => OutgoingWay.Webhook;

    /// <inheritdoc />
    public async Task<string> CarryAsync(Letter letter, CancellationToken cancellation)
    {
        var key = secrets.WebhookKey ?? throw new NotCarriedException($"There is no key for the webhook: it stands in {OutgoingSecrets.WebhookKeyFile} in the folder of the secrets.");
        var address = new Uri(letter.Message.Addressee);
        using var request = Post(letter, address, key, clock.GetUtcNow());
        try
        {
            using var answer = await client.SendAsync(request, HttpCompletionOption.ResponseHeadersRead, cancellation);
            var status = FormattableString.Invariant($"{(int)answer.StatusCode} {answer.ReasonPhrase}");
            return answer.IsSuccessStatusCode ? $"Taken by {address.Host}: {status}" : throw new NotCarriedException($"{address.Host} answers {status}.");
        }
        catch (Exception fault) when (fault is HttpRequestException or IOException)
        {
            throw new NotCarriedException($"{address.Host} cannot be reached: {fault.Message}", fault);
        }
        catch (TaskCanceledException fault) when (!cancellation.IsCancellationRequested)
        {
            throw new NotCarriedException(FormattableString.Invariant($"{address.Host} did not answer within {time.Limit.TotalSeconds:0.#} seconds."), fault);
        }
    }

    /// <inheritdoc />
    public void Dispose() => client.Dispose();

    private static HttpRequestMessage Post(Letter letter, Uri address, string key, DateTimeOffset now)
    {
        var body = Body(letter);
        var request = new HttpRequestMessage(HttpMethod.Post, address) { Content = new ByteArrayContent(body) };
        request.Content.Headers.ContentType = new MediaTypeHeaderValue("application/json", "utf-8");
        request.Headers.Add(WebhookSignature.MessageHeader, letter.Message.Id.ToString("D"));
        request.Headers.Add(WebhookSignature.TimeHeader, WebhookSignature.Seconds(now));
        request.Headers.Add(WebhookSignature.SignatureHeader, WebhookSignature.Of(key, now, body));
        return request;
    }

    private static byte[] Body(Letter letter)
    {
        var message = letter.Message;
        return JsonSerializer.SerializeToUtf8Bytes(
            new
            {
                message = message.Id, message.Kind, message.Subject, message.Text, About = new { Kind = message.SubjectKind, Id = message.SubjectId }, QueuedAt = RecordChain.InstantText(message.QueuedAt),
                Data = message.Facts is { } facts ? JsonNode.Parse(facts) : null,
                Files = letter.Files.Select(file => new { Name = file.FileName, file.MediaType, Base64 = Convert.ToBase64String(file.Bytes) }),
            },
            Readable);
    }
}
