using System.Globalization;
using System.Security.Cryptography.X509Certificates;
using ParticleLims.Laboratory.Record;

namespace ParticleLims.CertificatePdf.Sealing;

/// <summary>
/// The keys of the laboratory, in a folder outside the database that its owner alone can read: the newest seals, and the public parts of all stay, so
/// that certificates sealed by an earlier key remain checkable.
/// </summary>
/// <param name="folder">Where they lie; null keeps one in memory until the program ends, for trials and measurements.</param>
/// <param name="clock">The clock from which a key's name and validity come.</param>
public sealed class SealKeys(string? folder, TimeProvider clock) : IDisposable
{
    private const string PrivateEnding = ".key.pem";
    private const string PublicEnding = ".certificate.pem";
    private const UnixFileMode OwnerAlone = UnixFileMode.UserRead | UnixFileMode.UserWrite;
    private readonly Lock _lock = new();
    private SealKey? _current;
    private bool _expected;

    /// <summary>The folder; null for a key in memory.</summary>
    public string? Folder => folder;

    /// <summary>Whether a key is expected, and there is none to seal with. Once its folder is put back this is false again.</summary>
    public bool IsGone
    {
        get
        {
            lock (_lock)
            {
                return _expected && _current is null && NewestFile() is null;
            }
        }
    }

    /// <summary>The key that seals now; made when there is none yet.</summary>
    /// <param name="owner">The laboratory's name, which a new key carries.</param>
    /// <exception cref="RefusedException">There is none although one is expected.</exception>
    public SealKey Current(string owner)
    {
        lock (_lock)
        {
            return _current ??= Newest() ?? (_expected
                ? throw new RefusedException("seal-key-gone", $"The key that seals certificates is not in {folder}, although certificates were sealed before. The administrator puts the folder back from its copy, or makes a new key with new-seal-key; until then nothing is sealed.")
                : Make(owner));
        }
    }

    /// <summary>Says that something was sealed before: a key that is not there is from now on missed and not made in silence.</summary>
    public void Expect() => _expected = folder is not null;

    /// <summary>Makes a new key that seals from now on. The private parts of earlier ones are deleted; what they sealed stays valid.</summary>
    public SealKey Rotate(string owner)
    {
        lock (_lock)
        {
            var earlier = folder is null || !Directory.Exists(folder) ? [] : Directory.GetFiles(folder, "*" + PrivateEnding);
            _current?.Dispose();
            _current = Make(owner);
            foreach (var file in earlier)
            {
                File.Delete(file);
            }

            return _current;
        }
    }

    /// <summary>The public parts of all keys, the oldest first.</summary>
    public IReadOnlyList<X509Certificate2> Certificates()
    {
        lock (_lock)
        {
            return folder is null ? (_current is { } one ? [one.Certificate] : []) : CertificatesIn(folder);
        }
    }

    /// <summary>The public parts in a folder, the oldest first; none where there is no such folder.</summary>
    public static IReadOnlyList<X509Certificate2> CertificatesIn(string folder) =>
        Directory.Exists(folder) ? [.. Files(folder, PublicEnding).Select(file => X509Certificate2.CreateFromPem(File.ReadAllText(file)))] : [];

    /// <inheritdoc />
    public void Dispose() => _current?.Dispose();

    private SealKey? Newest() => NewestFile() is { } file ? SealKey.Read(File.ReadAllText(file), File.ReadAllText(file[..^PrivateEnding.Length] + PublicEnding)) : null;

    private string? NewestFile() => folder is null || !Directory.Exists(folder) ? null : Files(folder, PrivateEnding).LastOrDefault();

    private SealKey Make(string owner)
    {
        var now = clock.GetUtcNow();
        var key = SealKey.Make(owner, now);
        if (folder is null)
        {
            return key;
        }

        if (OperatingSystem.IsWindows())
        {
            Directory.CreateDirectory(folder);
        }
        else
        {
            Directory.CreateDirectory(folder, OwnerAlone | UnixFileMode.UserExecute);
        }

        // The number in front keeps them in order also when two are made within one tick of the clock.
        var name = Path.Combine(folder, string.Create(CultureInfo.InvariantCulture, $"{Files(folder, PublicEnding).Count() + 1:0000}-{now.UtcDateTime:yyyyMMdd}-{key.Certificate.Thumbprint[..8].ToLowerInvariant()}"));
        Write(name + PublicEnding, key.Certificate.ExportCertificatePem());
        Write(name + PrivateEnding, key.Export());
        return key;
    }

    /// <summary>On the disk under another name first, so that half a key is never found.</summary>
    private static void Write(string file, string text)
    {
        var options = new FileStreamOptions { Mode = FileMode.Create, Access = FileAccess.Write };
        if (!OperatingSystem.IsWindows())
        {
            options.UnixCreateMode = OwnerAlone;
        }

        using (var stream = new FileStream(file + ".new", options))
        {
            stream.Write(System.Text.Encoding.ASCII.GetBytes(text + "\n"));
            stream.Flush(flushToDisk: true);
        }

        File.Move(file + ".new", file);
    }

    private static IEnumerable<string> Files(string folder, string ending) => Directory.GetFiles(folder, "*" + ending).Order(StringComparer.Ordinal);
}
