using ParticleLims.Analysis.Quantities;
using ParticleLims.Instruments.Readings;

namespace ParticleLims.Instruments.Simulation;

/// <summary>What kind of balance is simulated. The values are plausible for a bench balance, not those of any model.</summary>
public sealed record SimulatedBalanceOptions
{
    /// <summary>Seed of the noise: the same seed gives the same sequence of noise.</summary>
    public int Seed { get; init; } = 1;

    /// <summary>The serial number in every line: 1 to 16 letters, digits or hyphens.</summary>
    public string Serial { get; init; } = "0417";

    /// <summary>One step of the last digit: 1, 2 or 5 times a power of ten, 1 µg to 1 g.</summary>
    public Mass Readability { get; init; } = Mass.FromMicrograms(1_000);

    /// <summary>The greatest load, including what was tared away, up to 100 kg; above it comes the overload line.</summary>
    public Mass Capacity { get; init; } = Mass.FromGrams(1_200m);

    /// <summary>How long the balance takes to settle after a load of its full capacity; smaller loads settle sooner.</summary>
    public TimeSpan SettleTime { get; init; } = TimeSpan.FromSeconds(2);

    /// <summary>Standard deviation of the noise once settled, in steps of the last digit, 0 to 10.</summary>
    public double NoiseSteps { get; init; } = 0.2;

    /// <summary>How fast the zero creeps, positive or negative.</summary>
    public Mass DriftPerHour { get; init; } = Mass.FromMicrograms(500);

    /// <summary>How many times faster than the clock the balance settles and drifts; 1 for a real one, 20 for a hurried test.</summary>
    public double SpeedFactor { get; init; } = 1;

    /// <summary>How often a line is sent, in real time; null to send only when asked by <c>READ</c>.</summary>
    public TimeSpan? LineEvery { get; init; } = TimeSpan.FromMilliseconds(100);

    /// <summary>Whether each line ends with check characters.</summary>
    public bool Checksum { get; init; } = true;

    /// <summary>TCP port on the loopback address for the lines; 0 for any free one.</summary>
    public int Port { get; init; }

    /// <summary>TCP port on the loopback address for the control channel, 0 for any free one; null for none.</summary>
    public int? ControlPort { get; init; }

    /// <summary>The format by which the lines are to be read.</summary>
    public ReadingFormat Format => Checksum ? PlainLine.FormatWithChecksum : PlainLine.Format;

    /// <summary>Decimals of a gram shown at this readability, 0 to 6.</summary>
    public int Decimals
    {
        get
        {
            var (decimals, step) = (6, Readability.Micrograms);
            while (decimals > 0 && step % 10 == 0)
            {
                (decimals, step) = (decimals - 1, step / 10);
            }

            return decimals;
        }
    }

    /// <summary>What is wrong with these options, in words; empty when they can be used.</summary>
    public IReadOnlyList<string> Problems() => [.. Checks().Where(check => !check.Holds).Select(check => check.Otherwise)];

    private IEnumerable<(bool Holds, string Otherwise)> Checks()
    {
        yield return (Serial.Length is >= 1 and <= 16 && Serial.All(c => char.IsAsciiLetterOrDigit(c) || c == '-'),
            "The serial number has 1 to 16 letters, digits or hyphens.");
        yield return (IsStep(Readability.Micrograms), "The readability is 1, 2 or 5 times a power of ten, from 1 µg to 1 g.");
        yield return (Capacity >= Readability && Capacity <= Mass.FromGrams(100_000m), "The capacity lies between one step and 100 kg.");
        yield return (ShowsCapacity(), "The capacity does not fit the eleven characters of a line at this readability.");
        yield return (SettleTime > TimeSpan.Zero, "The settling time is longer than nothing.");
        yield return (NoiseSteps is >= 0 and <= 10, "The noise lies between 0 and 10 steps.");
        yield return (double.IsFinite(SpeedFactor) && SpeedFactor > 0, "The speed factor is positive.");
        yield return (LineEvery is null || LineEvery >= TimeSpan.FromMilliseconds(1), "The line interval is at least 1 ms.");
    }

    private static bool IsStep(long micrograms)
    {
        var step = micrograms;
        while (step >= 10 && step % 10 == 0)
        {
            step /= 10;
        }

        return micrograms <= 1_000_000 && step is 1 or 2 or 5;
    }

    private bool ShowsCapacity() => Capacity.Grams.ToString("F0", System.Globalization.CultureInfo.InvariantCulture).Length + 1 + Decimals <= 11;
}
