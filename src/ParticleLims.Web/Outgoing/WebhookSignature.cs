using System.Globalization;
using System.Security.Cryptography;
using System.Text;

namespace ParticleLims.Web.Outgoing;

/// <summary>How a post is signed: HMAC-SHA-256 (RFC 2104, FIPS 180-4) over the time in Unix seconds, a point and the body, so that neither can be changed and an old one is known by its time.</summary>
internal static class WebhookSignature
{
    /// <summary>The header with the time of the post in seconds since 1970-01-01 UTC.</summary>
    public const string TimeHeader = "ParticleLims-Time";

    /// <summary>The header with the signature.</summary>
    public const string SignatureHeader = "ParticleLims-Signature";

    /// <summary>The header with the message's key: the same at each try, so that a message is taken once.</summary>
    public const string MessageHeader = "ParticleLims-Message";

    private const string Scheme = "hmac-sha256=";

    /// <summary>The signature's header value.</summary>
    /// <param name="key">The key as it stands in its file; its letters are the bytes.</param>
    /// <param name="at">The time of the post.</param>
    /// <param name="body">The body's bytes.</param>
    public static string Of(string key, DateTimeOffset at, byte[] body)
    {
        byte[] signed = [.. Encoding.ASCII.GetBytes(Seconds(at)), (byte)'.', .. body];
        return Scheme + Convert.ToHexStringLower(HMACSHA256.HashData(Encoding.UTF8.GetBytes(key), signed));
    }

    /// <summary>The time's header value.</summary>
    public static string Seconds(DateTimeOffset at) => at.ToUnixTimeSeconds().ToString(CultureInfo.InvariantCulture);
}
