using System.Globalization;
using ParticleLims.Laboratory.Documents;

namespace ParticleLims.Laboratory.Methods;

/// <summary>What a method asks for before the first sieve, one fact a line.</summary>
public static class PreparationFacts
{
    /// <summary>The facts in the order in which they are done.</summary>
    public static IReadOnlyList<VersionFact> Of(PreparationPlan plan)
    {
        ArgumentNullException.ThrowIfNull(plan);
        var facts = new List<VersionFact>();
        if (plan.ConditionsRead)
        {
            facts.Add(new VersionFact("Room", $"temperature {Band(plan.TemperatureLowest?.Celsius, plan.TemperatureHighest?.Celsius, "°C")}, relative humidity {Band(plan.HumidityLowestPercent, plan.HumidityHighestPercent, "%")}"));
        }

        if (plan.DryingTemperature is { } oven)
        {
            facts.Add(new VersionFact("Drying", string.Create(CultureInfo.InvariantCulture, $"{plan.DryingMinutes} min at {oven}")));
        }

        if (plan.ConditioningMinutes is { } minutes)
        {
            facts.Add(new VersionFact("Conditioning", string.Create(CultureInfo.InvariantCulture, $"{minutes} min open in the room")));
        }

        if (plan.FlowAid is { } aid)
        {
            facts.Add(new VersionFact("Flow aid", string.Create(CultureInfo.InvariantCulture, $"{plan.FlowAidPercent:0.######} % {aid}")));
        }

        return facts;
    }

    /// <summary>A band in words: "20 to 25 °C", "at most 60 %", "written down".</summary>
    public static string Band(decimal? lowest, decimal? highest, string unit) => (lowest, highest) switch
    {
        ({ } from, { } to) => string.Create(CultureInfo.InvariantCulture, $"{from:0.###} to {to:0.###} {unit}"),
        ({ } from, null) => string.Create(CultureInfo.InvariantCulture, $"at least {from:0.###} {unit}"),
        (null, { } to) => string.Create(CultureInfo.InvariantCulture, $"at most {to:0.###} {unit}"),
        _ => "written down",
    };
}
