using System.Globalization;
using ParticleLims.Analysis.Quantities;
using ParticleLims.Analysis.Sieves;
using ParticleLims.Laboratory.Balances;
using ParticleLims.Laboratory.Methods;

namespace ParticleLims.Laboratory.Runs;

/// <summary>What a reviewer has to look at beside the numbers: weighings taken again, unusual empty sieves, masses keyed by hand, pressure outside the method's band.</summary>
public static class RunFindings
{
    /// <summary>The findings in words.</summary>
    public static IReadOnlyList<string> Of(Run run, MethodVersion method)
    {
        ArgumentNullException.ThrowIfNull(run);
        ArgumentNullException.ThrowIfNull(method);
        return [.. Allowed(run), .. Again(run), .. Looks(run), .. Keyed(run), .. Unchecked(run), .. Small(run, method), .. Conditions(run, method.Preparation), .. Pressure(run, method), .. EndPoints(run, method), .. Loads(run)];
    }

    private static IEnumerable<string> Allowed(Run run) => run.Operators.Where(one => one.BySignature).OrderBy(one => one.Since).Select(one => one.AuthorisationThen);

    private static IEnumerable<string> Again(Run run) =>
        from later in run.Weighings
        where later.SupersedesId is not null
        let earlier = run.Weighings.Find(weighing => weighing.Id == later.SupersedesId)
        orderby later.At
        select $"The {later.Kind.Words()}{At(run, later.Position)} was weighed again: {earlier?.Mass} became {later.Mass}. Reason: {later.Reason}";

    private static IEnumerable<string> Looks(Run run) =>
        from look in run.Looks
        let empty = run.Find(WeighingKind.Empty, look.Position)
        where empty is not null
        orderby look.At
        let off = empty.Mass - look.Usual
        select $"The empty sieve{At(run, look.Position)} weighed {empty.Mass}, {(off < Mass.Zero ? $"{Mass.Zero - off} less" : $"{off} more")} than usual. {look.PersonName} looked at it: {look.Seen}";

    private static IEnumerable<string> Keyed(Run run) =>
        from weighing in run.Weighings
        where weighing.WayIn == WayIn.KeyedByHand
        orderby weighing.At
        select $"The {weighing.Kind.Words()}{At(run, weighing.Position)} did not come from the balance: {weighing.Mass} was keyed by hand by {weighing.PersonName}, {(weighing.ConfirmedByName is { } second ? $"confirmed by {second}" : "twice")}.";

    private static IEnumerable<string> Unchecked(Run run) =>
        run.BalanceUnchecked ? ["The balance had not passed its check on a day on which masses were taken from it; the method allows that."] : [];

    private static IEnumerable<string> Small(Run run, MethodVersion method) =>
        from sieve in run.Sieves
        where method.SmallResidue != SmallResidue.Stated
        orderby sieve.Position
        let residue = run.Residue(sieve.Position)
        where residue < run.BalanceMinimum
        select $"The residue on the {sieve.Aperture} sieve, {residue}, lies under the minimum weight of the balance, {run.BalanceMinimum}.";

    private static IEnumerable<string> Pressure(Run run, MethodVersion method) =>
        from interval in run.Intervals
        where method.PressureLowest is not null && interval.PressureMean is not null
        where interval.PressureLowest?.Pascals < method.PressureLowest?.Pascals || interval.PressureHighest?.Pascals > method.PressureHighest?.Pascals
        select $"The pressure{At(run, interval.Position)} ran from {interval.PressureLowest} to {interval.PressureHighest}; the method asks for {method.PressureLowest} to {method.PressureHighest}.";

    private static IEnumerable<string> Conditions(Run run, PreparationPlan plan)
    {
        if (run.Preparations.Where(one => one.Kind == PreparationKind.RoomConditions).MaxBy(one => one.StartedAt) is not { } read)
        {
            yield break;
        }

        if (read.Temperature < plan.TemperatureLowest || read.Temperature > plan.TemperatureHighest)
        {
            yield return $"The room was at {read.Temperature}; the method asks for {PreparationFacts.Band(plan.TemperatureLowest?.Celsius, plan.TemperatureHighest?.Celsius, "°C")}.";
        }

        if (read.HumidityPercent < plan.HumidityLowestPercent || read.HumidityPercent > plan.HumidityHighestPercent)
        {
            yield return string.Create(CultureInfo.InvariantCulture, $"The relative humidity was {read.HumidityPercent:0.###} %; the method asks for {PreparationFacts.Band(plan.HumidityLowestPercent, plan.HumidityHighestPercent, "%")}.");
        }
    }

    private static IEnumerable<string> EndPoints(Run run, MethodVersion method) =>
        from change in EndPoint.Changes(run, method)
        where change.Round == method.EndPoint!.MostIntervals && !change.IsReached
        select $"The end point was not reached{At(run, change.Position)}: in further interval {change.Round.ToString(CultureInfo.InvariantCulture)}, the last that the method allows, the residue went from {change.Before} to {change.After}.";

    private static IEnumerable<string> Loads(Run run) =>
        from sieve in run.Sieves
        orderby sieve.Position
        let residue = run.Residue(sieve.Position)
        let most = SieveLoad.Most(sieve.Aperture, sieve.FrameMillimetres)
        where residue > most
        select $"The {sieve.Aperture} sieve was overloaded: {residue} lay on it after sieving, more than {most} for a frame of {sieve.FrameMillimetres.ToString(CultureInfo.InvariantCulture)} mm. Take a smaller portion, or add a coarser sieve.";

    private static string At(Run run, int position) =>
        run.Sieves.Find(sieve => sieve.Position == position) is { } sieve ? string.Create(CultureInfo.InvariantCulture, $" at {sieve.Aperture}") : string.Empty;
}
