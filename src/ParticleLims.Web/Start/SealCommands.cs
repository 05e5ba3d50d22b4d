using System.Security.Cryptography.X509Certificates;
using System.Text;
using ParticleLims.CertificatePdf.Sealing;
using ParticleLims.Laboratory.Certificates;

namespace ParticleLims.Web.Start;

/// <summary>What is done with seals at the console: check a file without any server, make a new key.</summary>
internal static class SealCommands
{
    /// <summary>The command that the words ask for; null when they ask for the laboratory itself.</summary>
    public static Func<TextWriter, Task<int>>? Read(string[] arguments) => arguments switch
    {
        ["verify-certificate", var file] => Verify(file, () => SealKeys.CertificatesIn(FolderOf([]))),
        ["verify-certificate", var file, "--key", var key] => Verify(file, () => KeysOf(key)),
        ["verify-certificate", var file, "--data", var folder] => Verify(file, () => SealKeys.CertificatesIn(FolderOf(["--data", folder]))),
        ["new-seal-key", var name, .. var rest] when rest.Length is 0 or 2 => output => NewKeyAsync(output, name, rest),
        ["verify-certificate" or "new-seal-key", ..] => async output =>
        {
            await output.WriteLineAsync(StartOptions.Help);
            return 2;
        },
        _ => null,
    };

    private static Func<TextWriter, Task<int>> Verify(string file, Func<IReadOnlyList<X509Certificate2>> keys) => async output =>
    {
        try
        {
            return await VerifyAsync(output, await BytesOfAsync(file), keys());
        }
        catch (Exception fault) when (fault is IOException or UnauthorizedAccessException or System.Security.Cryptography.CryptographicException)
        {
            await output.WriteLineAsync($"This cannot be told: {fault.Message}");
            return 2;
        }
    };

    /// <summary>0: genuine. 1: changed or not sealed. 2: cannot be told, since the key is not known here.</summary>
    internal static async Task<int> VerifyAsync(TextWriter output, byte[] file, IReadOnlyList<X509Certificate2> known)
    {
        var found = SealCheck.Check(file, known);
        await output.WriteLineAsync(found.Outcome switch
        {
            SealOutcome.Genuine => "Genuine: sealed by a key of the laboratory, and not a byte changed since.",
            SealOutcome.KeyUnknown => "Unchanged since it was sealed, but the key is not known here. Compare its fingerprint with the laboratory's, or give its public key with --key.",
            SealOutcome.Changed => "CHANGED: the seal does not fit this file. Do not rely on it.",
            SealOutcome.NotSealed => "Not sealed: this is no certificate of this kind.",
            _ => throw new ArgumentOutOfRangeException(nameof(file), found.Outcome, "Not an outcome."),
        });
        if (found is { Certificate: { } certificate, Twin: { } twin })
        {
            await output.WriteLineAsync($"certificate   {Words(twin)}");
            await output.WriteLineAsync($"content hash  {found.ContentHash}");
            await output.WriteLineAsync($"key           {SealKey.FingerprintOf(certificate)}");
            await output.WriteLineAsync("Whether it was superseded or withdrawn since, only the laboratory's check page can tell.");
        }

        return found.Outcome switch { SealOutcome.Genuine => 0, SealOutcome.KeyUnknown => 2, _ => 1 };
    }

    /// <summary>No more than a byte beyond what is looked at, also of a file without an end.</summary>
    private static async Task<byte[]> BytesOfAsync(string file)
    {
        await using var stream = File.OpenRead(file);
        var bytes = new byte[(int)Math.Min(SealCheck.LargestFile + 1L, Math.Max(stream.CanSeek ? stream.Length : long.MaxValue, 1))];
        return bytes[..await stream.ReadAtLeastAsync(bytes, bytes.Length, throwOnEndOfStream: false)];
    }

    /// <summary>What the twin says of itself. Whoever has any key can seal anything: it may be no certificate, and hold letters that steer a console.</summary>
    private static string Words(byte[] twin)
    {
        try
        {
            if (CertificateIssue.ReadContent(Encoding.UTF8.GetString(twin)) is { Product: { } product, Issuer: { } issuer } content)
            {
                var words = FormattableString.Invariant($"{content.Number}, revision {content.Revision}, lot {product.LotNumber}, issued {content.IssuedAt:yyyy-MM-dd} by {issuer.Name}");
                return string.Concat(words.Select(letter => char.IsControl(letter) ? ' ' : letter));
            }
        }
        catch (System.Text.Json.JsonException)
        {
            // Told below, as of a content without product and issuer.
        }

        return "its content cannot be read by this program";
    }

    private static async Task<int> NewKeyAsync(TextWriter output, string name, string[] rest)
    {
        using var keys = new SealKeys(FolderOf(rest), TimeProvider.System);
        var key = keys.Rotate(name);
        await output.WriteLineAsync($"New key {key.Fingerprint}. It seals from the next start of the program on; certificates sealed before stay valid.");
        return 0;
    }

    private static string FolderOf(string[] options) => StartOptions.Read(options, Environment.GetEnvironmentVariable).SealFolder;

    private static X509Certificate2[] KeysOf(string file)
    {
        var all = new X509Certificate2Collection();
        all.ImportFromPemFile(file);
        return [.. all];
    }
}
