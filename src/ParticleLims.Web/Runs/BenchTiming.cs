using System.Globalization;
using ParticleLims.Instruments.Stability;

namespace ParticleLims.Web.Runs;

/// <summary>How long a reading must hold and how long the countdown lasts before it is taken. The values are the laboratory's choice.</summary>
/// <param name="HoldFor">How long the reading has to be stable.</param>
/// <param name="Countdown">How long a touch can still stop the taking.</param>
public sealed record BenchTiming(TimeSpan HoldFor, TimeSpan Countdown)
{
    /// <summary>1.5 s stable, then 2 s in which a touch stops it; <c>--bench-hold</c> and <c>--bench-countdown</c> give other seconds, 0 to 60.</summary>
    public static BenchTiming Read(IConfiguration configuration)
    {
        ArgumentNullException.ThrowIfNull(configuration);
        return new BenchTiming(Seconds(configuration["bench-hold"], 1.5), Seconds(configuration["bench-countdown"], 2));
    }

    /// <summary>The rules by which readings are watched: the pan has to be seen empty between two weighings.</summary>
    public StableReadingRules Rules => new() { HoldFor = HoldFor, PanMustReturnToZero = true };

    private static TimeSpan Seconds(string? text, double otherwise) =>
        TimeSpan.FromSeconds(double.TryParse(text, NumberStyles.AllowDecimalPoint, CultureInfo.InvariantCulture, out var seconds) && seconds <= 60 ? seconds : otherwise);
}
