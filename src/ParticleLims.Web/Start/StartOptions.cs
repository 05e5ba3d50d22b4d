namespace ParticleLims.Web.Start;

/// <summary>What the command line says: <c>--demo</c>, <c>--data DIR</c>, <c>--urls URL</c>, <c>--database "Host=…"</c>.</summary>
public sealed record StartOptions(bool Demonstration, string DataFolder, string? DatabaseConnection, string[] Rest)
{
    /// <summary>The SQLite file, of its own for the demonstration.</summary>
    public string DatabaseFile => Path.Combine(DataFolder, Demonstration ? "demonstration.db" : "laboratory.db");

    /// <summary>Where backups go.</summary>
    public string BackupFolder => Path.Combine(DataFolder, "backups");

    /// <summary>Reads the command line; everything else is left to the host.</summary>
    /// <exception cref="StartRefusedException">An option without its value.</exception>
    public static StartOptions Read(string[] arguments)
    {
        ArgumentNullException.ThrowIfNull(arguments);
        var (demonstration, data, database, rest) = (false, (string?)null, (string?)null, new List<string>());
        for (var index = 0; index < arguments.Length; index++)
        {
            switch (arguments[index])
            {
                case "--demo":
                    demonstration = true;
                    break;
                case "--data":
                    data = Value(arguments, ref index);
                    break;
                case "--database":
                    database = Value(arguments, ref index);
                    break;
                default:
                    rest.Add(arguments[index]);
                    break;
            }
        }

        return new StartOptions(demonstration, Path.GetFullPath(data ?? DefaultFolder()), database, [.. rest]);
    }

    private static string Value(string[] arguments, ref int index) =>
        index + 1 < arguments.Length && !arguments[index + 1].StartsWith("--", StringComparison.Ordinal)
            ? arguments[++index]
            : throw new StartRefusedException($"The option {arguments[index]} needs a value after it.");

    private static string DefaultFolder() =>
        Path.Combine(Environment.GetFolderPath(Environment.SpecialFolder.LocalApplicationData, Environment.SpecialFolderOption.DoNotVerify), "ParticleLims");
}
