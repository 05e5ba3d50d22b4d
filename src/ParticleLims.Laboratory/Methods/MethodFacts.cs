using System.Globalization;
using ParticleLims.Laboratory.Documents;

namespace ParticleLims.Laboratory.Methods;

/// <summary>What a version of a method says, one fact a line.</summary>
public static class MethodFacts
{
    /// <summary>The facts in the order in which a method is read.</summary>
    public static IReadOnlyList<VersionFact> Of(MethodVersion version)
    {
        ArgumentNullException.ThrowIfNull(version);
        return
        [
            new("Procedure", version.Procedure.Words()),
            new("Test portion", string.Create(CultureInfo.InvariantCulture, $"{version.PortionLeast.Grams:0.0##} to {version.PortionMost.Grams:0.0##} g")),
            new("Sieving time", string.Create(CultureInfo.InvariantCulture, $"{version.Seconds} s {(version.Procedure == SievingProcedure.NestedStack ? "for the stack" : "on each sieve")}")),
            .. Pressure(version),
            new("Replicates", version.Replicates.ToString(CultureInfo.InvariantCulture)),
            new("Percentiles", string.Join(", ", version.PercentileList.Select(one => string.Create(CultureInfo.InvariantCulture, $"D{one:0.###}")))),
            new("Curve read", version.Reading.Words()),
            .. Optional("Least recovery", version.LeastRecoveryPercent, "%"),
            .. Optional("Most transfer loss", version.MostTransferLossPercent, "% of the test portion"),
            .. Optional("Replicates differ at most by", version.RepeatabilityLimitPercent, "percentage points"),
            .. Optional("Uncertainty from taking the test portion", version.PortionUncertaintyPercent, "% at 50 % passing"),
            .. EndPoint(version.EndPoint),
            .. version.CollectorWeighed ? [new VersionFact("Collector", "weighed before and after")] : Array.Empty<VersionFact>(),
            .. version.EffectiveApertures ? [new VersionFact("Apertures", "effective, by each sieve's last check with a reference material")] : Array.Empty<VersionFact>(),
            .. version.SievesScanned ? [new VersionFact("Sieves", "each label scanned at the bench")] : Array.Empty<VersionFact>(),
            .. version.AuthorisationNeeded ? [new VersionFact("People", "authorised for this method")] : Array.Empty<VersionFact>(),
            .. version.UncheckedBalance == UncheckedBalance.Refused ? Array.Empty<VersionFact>() : [new VersionFact("Balance not checked on the day", version.UncheckedBalance.Words())],
            .. version.SmallResidue == SmallResidue.Stated ? Array.Empty<VersionFact>() : [new VersionFact("Residue under the balance's minimum weight", version.SmallResidue.Words())],
            .. PreparationFacts.Of(version.Preparation),
            .. version.Sieves.OrderBy(sieve => sieve.Position).Select(sieve => new VersionFact($"Sieve {sieve.Aperture}", "used")),
        ];
    }

    /// <summary>The procedure as people say it.</summary>
    public static string Words(this SievingProcedure procedure) => procedure switch
    {
        SievingProcedure.SeparatePortions => "air jet, separate portions",
        SievingProcedure.CarriedResidue => "air jet, carried residue",
        SievingProcedure.NestedStack => "nested stack",
        _ => throw new ArgumentOutOfRangeException(nameof(procedure), procedure, "Not a procedure."),
    };

    /// <summary>The way of reading the curve as people say it.</summary>
    public static string Words(this CurveReading reading) => reading switch
    {
        CurveReading.Linear => "straight over the aperture",
        CurveReading.LogLinear => "straight over the logarithm of the aperture",
        CurveReading.RosinRammler => "straight in the Rosin-Rammler net",
        CurveReading.LogNormal => "straight in the log-normal net",
        CurveReading.MonotoneCubic => "monotone cubic over the logarithm of the aperture",
        _ => throw new ArgumentOutOfRangeException(nameof(reading), reading, "Not a way of reading."),
    };

    private static IEnumerable<VersionFact> Pressure(MethodVersion version) => version.PressureLowest is { } lowest && version.PressureHighest is { } highest
        ? [new VersionFact("Differential pressure", string.Create(CultureInfo.InvariantCulture, $"{lowest.Kilopascals:0.0##} to {highest.Kilopascals:0.0##} kPa"))]
        : [];

    private static IEnumerable<VersionFact> EndPoint(EndPointPlan? plan)
    {
        if (plan is null)
        {
            return [];
        }

        string[] changes =
        [
            .. Change(plan.MostChangePercent, "% of the residue"), .. plan.MostChange is { } mass ? [mass.ToString()] : Array.Empty<string>(), .. Change(plan.MostChangeOfPortionPercent, "% of the test portion"),
            .. plan.SmallResiduePercent is { } small ? [string.Create(CultureInfo.InvariantCulture, $"{plan.SmallResidueMostChangePercent:0.######} % of a residue below {small:0.######} % of the portion")] : Array.Empty<string>(),
        ];
        var words = string.Create(CultureInfo.InvariantCulture, $"further intervals of {plan.IntervalSeconds} s, at most {plan.MostIntervals}, until the residue changes by no more than {string.Join(" or ", changes)}");
        return [new VersionFact("End point", words)];
    }

    private static string[] Change(decimal? value, string unit) => value is { } given ? [string.Create(CultureInfo.InvariantCulture, $"{given:0.######} {unit}")] : [];

    private static IEnumerable<VersionFact> Optional(string name, decimal? value, string unit) =>
        value is { } given ? [new VersionFact(name, string.Create(CultureInfo.InvariantCulture, $"{given:0.######} {unit}"))] : [];
}
