using ParticleLims.Analysis.Quantities;

namespace ParticleLims.Laboratory.Methods;

/// <summary>What a method asks for before the first sieve.</summary>
public sealed record PreparationPlan
{
    /// <summary>Nothing is asked.</summary>
    public static PreparationPlan None { get; } = new();

    /// <summary>Whether temperature and humidity of the room are written down.</summary>
    public bool ConditionsRead { get; init; }

    /// <summary>The room's temperature, lowest; null for none.</summary>
    public Temperature? TemperatureLowest { get; init; }

    /// <summary>The room's temperature, highest; null for none.</summary>
    public Temperature? TemperatureHighest { get; init; }

    /// <summary>The room's relative humidity in percent, lowest; null for none.</summary>
    public decimal? HumidityLowestPercent { get; init; }

    /// <summary>The room's relative humidity in percent, highest; null for none.</summary>
    public decimal? HumidityHighestPercent { get; init; }

    /// <summary>The oven's temperature; null where the powder is not dried.</summary>
    public Temperature? DryingTemperature { get; init; }

    /// <summary>Minutes in the oven; null where the powder is not dried.</summary>
    public int? DryingMinutes { get; init; }

    /// <summary>Minutes that the powder lies open in the room before it is weighed; null for none.</summary>
    public int? ConditioningMinutes { get; init; }

    /// <summary>What is mixed into the powder so that it flows, in words; null for nothing.</summary>
    public string? FlowAid { get; init; }

    /// <summary>How much of it, in percent of the test portion.</summary>
    public decimal? FlowAidPercent { get; init; }

    internal void Check()
    {
        MethodRefusal.Unless(!(TemperatureLowest > TemperatureHighest), "temperatureLowest", "The room's temperature has a lowest and a highest, in this order.");
        MethodRefusal.Unless(ConditionsRead || Bands().All(bound => bound is null), "temperatureLowest", "Limits of temperature or humidity need the conditions to be read.");
        MethodRefusal.Unless(HumidityLowestPercent is null or (>= 0m and <= 100m) && HumidityHighestPercent is null or (>= 0m and <= 100m) && !(HumidityLowestPercent > HumidityHighestPercent), "humidityLowest", "The relative humidity lies between 0 and 100 %, the lowest not above the highest.");
        MethodRefusal.Unless(DryingTemperature is null == DryingMinutes is null && DryingMinutes is null or (>= 1 and <= 10_080), "dryingMinutes", "Drying has the oven's temperature and 1 to 10080 minutes, or neither.");
        MethodRefusal.Unless(DryingTemperature is not { } oven || oven.Celsius is >= 20m and <= 300m, "dryingTemperature", "An oven for drying stands at 20 to 300 °C.");
        MethodRefusal.Unless(ConditioningMinutes is null or (>= 1 and <= 10_080), "conditioningMinutes", "Conditioning lasts 1 to 10080 minutes.");
        MethodRefusal.Unless(FlowAid is null == FlowAidPercent is null && FlowAid is null or { Length: >= 2 and <= 100 } && FlowAidPercent is null or (> 0m and <= 20m), "flowAid", "A flow aid has a name of 2 to 100 characters and a share above 0 and at most 20 % of the test portion, or neither.");
    }

    private object?[] Bands() => [TemperatureLowest, TemperatureHighest, HumidityLowestPercent, HumidityHighestPercent];
}
