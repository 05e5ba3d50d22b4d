using System.Globalization;
using ParticleLims.Analysis.Quantities;

namespace ParticleLims.Laboratory.Demonstration;

/// <summary>How the demonstration laboratory is made.</summary>
public sealed record DemonstrationOptions
{
    /// <summary>Where the public check of certificates is reached, for example <c>http://localhost:5000</c>.</summary>
    public required string PublicAddress { get; init; }

    /// <summary>The same seed gives the same history; only secrets and keys differ.</summary>
    public int Seed { get; init; } = 1;

    /// <summary>How many days of history, 30 to 730.</summary>
    public int Days { get; init; } = 365;

    /// <summary>The last instant of the history; null for the present.</summary>
    public DateTimeOffset? End { get; init; }

    /// <summary>The simulated balance at the bench.</summary>
    public DemonstrationBalance BenchBalance { get; init; } = new("127.0.0.1", 4417, "0417");

    /// <summary>The other one, which fails its check near the end and is out of service since.</summary>
    public DemonstrationBalance OtherBalance { get; init; } = new("127.0.0.1", 4418, "0582");

    /// <summary>Where the simulated pressure gauge answers.</summary>
    public (string Host, int Port) Gauge { get; init; } = ("127.0.0.1", 4420);

    /// <summary>Where to write the access file. It is on disk before the laboratory is, so that nobody meets a laboratory whose passwords are lost. Null writes none.</summary>
    public string? AccessFile { get; init; }
}

/// <summary>A balance of the demonstration.</summary>
/// <param name="Host">Where its lines come from.</param>
/// <param name="Port">The TCP port, 1 to 65535.</param>
/// <param name="Serial">Its serial number, as its lines tell it.</param>
/// <param name="ReadingFormat">The name of the format of its lines.</param>
/// <param name="WriteLine">Writes the line of a stable reading from its mass and the decimals shown; null for our plain line without check characters.</param>
public sealed record DemonstrationBalance(string Host, int Port, string Serial, string ReadingFormat = "Plain line", Func<Mass, int, string>? WriteLine = null)
{
    /// <summary>The line that the balance would have sent.</summary>
    internal string LineOf(Mass mass, int decimals) => WriteLine?.Invoke(mass, decimals)
        ?? $"S +{mass.Grams.ToString("F" + decimals.ToString(CultureInfo.InvariantCulture), CultureInfo.InvariantCulture),11} g {Serial}";
}
