using System.Globalization;
using ParticleLims.Laboratory.Methods;

namespace ParticleLims.Laboratory.Runs;

/// <summary>What a reviewer has to look at beside the numbers: weighings taken again, pressure outside the method's band.</summary>
public static class RunFindings
{
    /// <summary>The findings in words.</summary>
    public static IReadOnlyList<string> Of(Run run, MethodVersion method)
    {
        ArgumentNullException.ThrowIfNull(run);
        ArgumentNullException.ThrowIfNull(method);
        return [.. Again(run), .. Pressure(run, method)];
    }

    private static IEnumerable<string> Again(Run run) =>
        from later in run.Weighings
        where later.SupersedesId is not null
        let earlier = run.Weighings.Find(weighing => weighing.Id == later.SupersedesId)
        orderby later.At
        select $"The {later.Kind.Words()}{At(run, later.Position)} was weighed again: {earlier?.Mass} became {later.Mass}. Reason: {later.Reason}";

    private static IEnumerable<string> Pressure(Run run, MethodVersion method) =>
        from interval in run.Intervals
        where method.PressureLowest is not null && interval.PressureMean is not null
        where interval.PressureLowest?.Pascals < method.PressureLowest?.Pascals || interval.PressureHighest?.Pascals > method.PressureHighest?.Pascals
        select $"The pressure{At(run, interval.Position)} ran from {interval.PressureLowest} to {interval.PressureHighest}; the method asks for {method.PressureLowest} to {method.PressureHighest}.";

    private static string At(Run run, int position) =>
        run.Sieves.Find(sieve => sieve.Position == position) is { } sieve ? string.Create(CultureInfo.InvariantCulture, $" at {sieve.Aperture}") : string.Empty;
}
