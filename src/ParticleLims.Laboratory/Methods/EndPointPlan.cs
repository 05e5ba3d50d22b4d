using ParticleLims.Analysis.Quantities;
using ParticleLims.Analysis.Weighings;

namespace ParticleLims.Laboratory.Methods;

/// <summary>How the end point of sieving is found: after the method's time the residue is sieved on in further intervals and weighed after each, until it changes by no more than the rule allows.</summary>
public sealed record EndPointPlan
{
    /// <summary>Seconds of each further interval.</summary>
    public required int IntervalSeconds { get; init; }

    /// <summary>The most further intervals; a residue that still changes then is a finding.</summary>
    public required int MostIntervals { get; init; }

    /// <summary>The most change in percent of the residue before the interval; null for none.</summary>
    public decimal? MostChangePercent { get; init; }

    /// <summary>The most change as a mass; null for none.</summary>
    public Mass? MostChange { get; init; }

    /// <summary>The most change in percent of the test portion; null for none.</summary>
    public decimal? MostChangeOfPortionPercent { get; init; }

    /// <summary>A residue below so many percent of the test portion has the easement; null for none.</summary>
    public decimal? SmallResiduePercent { get; init; }

    /// <summary>The most change of a small residue, in percent of the residue before the interval.</summary>
    public decimal? SmallResidueMostChangePercent { get; init; }

    /// <summary>The plan with the figures of a rule.</summary>
    public static EndPointPlan By(EndPointRule rule, int intervalSeconds, int mostIntervals)
    {
        ArgumentNullException.ThrowIfNull(rule);
        return new EndPointPlan
        {
            IntervalSeconds = intervalSeconds, MostIntervals = mostIntervals, MostChangePercent = rule.MostChangePercent, MostChange = rule.MostChange, MostChangeOfPortionPercent = rule.MostChangeOfPortionPercent,
            SmallResiduePercent = rule.SmallResiduePercent, SmallResidueMostChangePercent = rule.SmallResidueMostChangePercent,
        };
    }

    /// <summary>The rule as the engine knows it.</summary>
    internal EndPointRule Rule() => new()
    {
        MostChangePercent = MostChangePercent, MostChange = MostChange, MostChangeOfPortionPercent = MostChangeOfPortionPercent, SmallResiduePercent = SmallResiduePercent,
        SmallResidueMostChangePercent = SmallResidueMostChangePercent,
    };

    internal void Check()
    {
        MethodRefusal.Unless(IntervalSeconds is >= 1 and <= 36_000, "endPointSeconds", "A further interval of the end point lasts 1 s to 10 hours.");
        MethodRefusal.Unless(MostIntervals is >= 1 and <= 20, "endPointMostIntervals", "The end point has 1 to 20 further intervals.");
        MethodRefusal.Unless(MostChangePercent is not null || MostChange is not null || MostChangeOfPortionPercent is not null, "endPointMostChange", "Say by how much the residue may still change: in percent of it, in grams, or in percent of the portion.");
        MethodRefusal.Unless(Percents().All(percent => percent is > 0m and <= 100m) && !(MostChange <= Mass.Zero), "endPointMostChange", "The changes that end sieving lie above 0 and, in percent, at most at 100.");
        MethodRefusal.Unless(SmallResiduePercent is null == SmallResidueMostChangePercent is null, "endPointSmallResidue", "The easement for a small residue needs both figures: how small, and how much it may change.");
    }

    private IEnumerable<decimal> Percents() => new[] { MostChangePercent, MostChangeOfPortionPercent, SmallResiduePercent, SmallResidueMostChangePercent }.OfType<decimal>();
}
