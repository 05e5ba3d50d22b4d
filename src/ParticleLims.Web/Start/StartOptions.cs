namespace ParticleLims.Web.Start;

/// <summary>What the command line says; the environment says the same by <c>PARTICLELIMS_DATA</c>, <c>PARTICLELIMS_DATABASE</c>, <c>PARTICLELIMS_PROXY</c> and <c>PARTICLELIMS_PRACTICE</c>, so that no password stands in a list of processes.</summary>
/// <param name="Demonstration"><c>--demo</c>: the demonstration laboratory in a database of its own.</param>
/// <param name="DataFolder"><c>--data DIR</c>: where database, keys and backups are kept.</param>
/// <param name="DatabaseConnection"><c>--database "Host=…"</c>: PostgreSQL in place of the embedded SQLite; null for SQLite.</param>
/// <param name="Proxy">The network of the reverse proxy whose forwarded addresses are believed, such as <c>172.18.0.0/16</c>; null for this machine alone.</param>
/// <param name="Practice"><c>--practice</c>: the practice laboratory, a demonstration in a database of its own, under a watermark.</param>
/// <param name="PracticeAddress">Where the practice laboratory answers, shown at the bench of the real one; null for none.</param>
/// <param name="Rest">What is left to the host: <c>--urls URL</c>.</param>
public sealed record StartOptions(bool Demonstration, string DataFolder, string? DatabaseConnection, System.Net.IPNetwork? Proxy, string[] Rest, bool Practice = false, Uri? PracticeAddress = null)
{
    /// <summary>The options in words.</summary>
    public const string Help = """
        particlelims [--demo | --practice] [--data DIR] [--urls URL] [--database "Host=…"]
        particlelims verify-certificate FILE [--key FILE | --data DIR]
        particlelims new-seal-key NAME [--data DIR]
        particlelims activate SIGN-ON-NAME [--data DIR] [--database "Host=…"]
        particlelims verify-record [--demo | --practice] [--data DIR] [--database "Host=…"] [--head FILE | --head NUMBER:HASH]
        particlelims bounces FOLDER [--demo | --practice] [--data DIR] [--database "Host=…"]
          --demo       a laboratory with invented data, in a database of its own
          --practice   the same for training, under a watermark, again in a database of its own
          --data       where the database, keys and backups are kept
          --urls       where it answers, for example http://0.0.0.0:8080
          --database   PostgreSQL in place of the embedded database
          verify-certificate   whether a certificate's file is sealed and unchanged, asking no server
          new-seal-key         a new key seals from the next start on; what earlier keys sealed stays valid
          activate             a code with which the last administrator sets a lost password anew; stop the program first
          verify-record        whether the record's chain holds and every row is as it says; the program may run meanwhile
          bounces              takes in the mails (*.eml) of a folder that say that mails came back; the program may run meanwhile
        """;

    private static readonly string[] OfTheHost = ["--urls", "--environment", "--balance-port", "--balance-control-port", "--balance-speed", "--bench-hold", "--bench-countdown"];

    /// <summary>The SQLite file, of its own for the demonstration and for practice.</summary>
    public string DatabaseFile => Path.Combine(DataFolder, Practice ? "practice.db" : Demonstration ? "demonstration.db" : "laboratory.db");

    /// <summary>Where it stands who may sign on to the demonstration or the practice laboratory.</summary>
    public string AccessFile => Path.Combine(DataFolder, Practice ? "practice-access.txt" : Laboratory.Demonstration.DemonstrationAccessFile.FileName);

    /// <summary>Where the keys lie that seal certificates, outside the database; each laboratory has its own.</summary>
    public string SealFolder => Path.Combine(DataFolder, Practice ? "practice-seal" : Demonstration ? "demonstration-seal" : "laboratory-seal");

    /// <summary>Where the secrets of outgoing messages lie, outside the database; each laboratory has its own.</summary>
    public string OutgoingFolder => Path.Combine(DataFolder, Practice ? "practice-outgoing" : Demonstration ? "demonstration-outgoing" : "laboratory-outgoing");

    /// <summary>Where backups go.</summary>
    public string BackupFolder => Path.Combine(DataFolder, "backups");

    /// <summary>Reads the command line and what the environment adds to it.</summary>
    /// <exception cref="StartRefusedException">An unknown option, or one without its value.</exception>
    public static StartOptions Read(string[] arguments, Func<string, string?>? environment = null)
    {
        ArgumentNullException.ThrowIfNull(arguments);
        var given = new Dictionary<string, string>(StringComparer.Ordinal);
        var (demonstration, practice, rest) = (false, false, new List<string>());
        for (var index = 0; index < arguments.Length; index++)
        {
            switch (arguments[index])
            {
                case "--demo":
                    demonstration = true;
                    break;
                case "--practice":
                    practice = true;
                    break;
                case "--data" or "--database":
                    given[arguments[index]] = Value(arguments, ref index);
                    break;
                case var option when OfTheHost.Contains(option):
                    rest.AddRange([option, Value(arguments, ref index)]);
                    break;
                case var setting when IsSetting(setting):
                    rest.Add(setting);
                    break;
                default:
                    throw new StartRefusedException($"There is no option {arguments[index]}.{Environment.NewLine}{Help}");
            }
        }

        if (demonstration && practice)
        {
            throw new StartRefusedException("--demo and --practice are two laboratories. Start one of them.");
        }

        var folder = given.GetValueOrDefault("--data") ?? environment?.Invoke("PARTICLELIMS_DATA") ?? DefaultFolder();
        return new StartOptions(demonstration || practice, Path.GetFullPath(folder), given.GetValueOrDefault("--database") ?? environment?.Invoke("PARTICLELIMS_DATABASE"), Network(environment?.Invoke("PARTICLELIMS_PROXY")), [.. rest], practice, Address(environment?.Invoke("PARTICLELIMS_PRACTICE")));
    }

    // The host's own settings in one word, --Kestrel:Limits:MaxConcurrentConnections=100.
    private static bool IsSetting(string argument) => argument.StartsWith("--", StringComparison.Ordinal) && argument.Contains('=', StringComparison.Ordinal) && (argument.Contains(':', StringComparison.Ordinal) || Array.Exists(OfTheHost, option => argument.StartsWith(option + "=", StringComparison.Ordinal)));

    private static string Value(string[] arguments, ref int index) =>
        index + 1 < arguments.Length && !arguments[index + 1].StartsWith("--", StringComparison.Ordinal)
            ? arguments[++index]
            : throw new StartRefusedException($"The option {arguments[index]} needs a value after it.");

    private static System.Net.IPNetwork? Network(string? text) => text is null ? null
        : System.Net.IPNetwork.TryParse(text, out var network) ? network
        : throw new StartRefusedException($"PARTICLELIMS_PROXY is a network such as 172.18.0.0/16, not “{text}”.");

    private static Uri? Address(string? text) => string.IsNullOrWhiteSpace(text) ? null
        : Uri.TryCreate(text, UriKind.Absolute, out var address) && address.Scheme is "http" or "https" ? address
        : throw new StartRefusedException($"PARTICLELIMS_PRACTICE is an address such as https://practice.example, not “{text}”.");

    private static string DefaultFolder() =>
        Path.Combine(Environment.GetFolderPath(Environment.SpecialFolder.LocalApplicationData, Environment.SpecialFolderOption.DoNotVerify), "ParticleLims");
}
