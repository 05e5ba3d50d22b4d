using ParticleLims.Analysis.Quantities;
using ParticleLims.Laboratory.Methods;

namespace ParticleLims.Web.Methods;

/// <summary>What comes before the first sieve as it stands in the editor, in the units that people type.</summary>
internal sealed class PreparationSheet
{
    public bool ConditionsRead { get; set; }
    public decimal? TemperatureLowest { get; set; }
    public decimal? TemperatureHighest { get; set; }
    public decimal? HumidityLowest { get; set; }
    public decimal? HumidityHighest { get; set; }
    public bool Dried { get; set; }
    public decimal? DryingTemperature { get; set; }
    public decimal? DryingMinutes { get; set; }
    public decimal? ConditioningMinutes { get; set; }
    public string FlowAid { get; set; } = string.Empty;
    public decimal? FlowAidPercent { get; set; }

    public static PreparationSheet Of(PreparationPlan plan) => new()
    {
        ConditionsRead = plan.ConditionsRead, TemperatureLowest = plan.TemperatureLowest?.Celsius, TemperatureHighest = plan.TemperatureHighest?.Celsius,
        HumidityLowest = plan.HumidityLowestPercent, HumidityHighest = plan.HumidityHighestPercent, Dried = plan.DryingMinutes is not null, DryingTemperature = plan.DryingTemperature?.Celsius,
        DryingMinutes = plan.DryingMinutes, ConditioningMinutes = plan.ConditioningMinutes, FlowAid = plan.FlowAid ?? string.Empty, FlowAidPercent = plan.FlowAidPercent,
    };

    /// <summary>What is asked for; fields of a part that is not ticked are left out.</summary>
    public PreparationPlan Plan() => new()
    {
        ConditionsRead = ConditionsRead, TemperatureLowest = Room(TemperatureLowest), TemperatureHighest = Room(TemperatureHighest),
        HumidityLowestPercent = ConditionsRead ? HumidityLowest : null, HumidityHighestPercent = ConditionsRead ? HumidityHighest : null,
        DryingTemperature = Dried && DryingTemperature is { } oven ? Temperature.FromCelsius(oven) : null, DryingMinutes = Dried ? (int?)DryingMinutes : null, ConditioningMinutes = (int?)ConditioningMinutes,
        FlowAid = FlowAid.Trim().Length == 0 ? null : FlowAid.Trim(), FlowAidPercent = FlowAidPercent,
    };

    private Temperature? Room(decimal? celsius) => ConditionsRead && celsius is { } given ? Temperature.FromCelsius(given) : null;
}
