using System.Globalization;
using ParticleLims.Analysis;
using ParticleLims.Analysis.Uncertainty;
using ParticleLims.Laboratory.Runs;
using ParticleLims.Pictures.Plots;
using ParticleLims.Web.Controls;
using EngineEntry = ParticleLims.Analysis.Uncertainty.BudgetEntry;

namespace ParticleLims.Web.Evaluations;

/// <summary>The budget of a size's uncertainty in words.</summary>
internal static class UncertaintyBudgets
{
    /// <summary>The budget of a percentile; without entries where there is none.</summary>
    public static Budget Of(string title, EvaluationResult result, decimal percent)
    {
        var size = string.Create(CultureInfo.InvariantCulture, $"D{percent:0.###}");
        var found = result.Percentiles.Zip(result.PercentileUncertainties).FirstOrDefault(pair => pair.First.Percent == percent).Second;
        return new Budget
        {
            Title = $"{title}, {size}",
            Entries = found is null ? [] : [.. found.Budget.Select(entry => new Pictures.Plots.BudgetEntry(Words(entry), entry.SharePercent, Amount(entry), Sensitivity(entry)))],
            Total = found is null ? string.Empty : $"u({size}) = {Say.Micrometres(found.StandardUncertainty, 2)}",
        };
    }

    private static string Amount(EngineEntry entry) => $"{UncertaintyWords.Number(entry.StandardUncertainty)} {Unit(entry.Input)}";

    /// <summary>Of a size, in µm per unit of the input.</summary>
    private static string Sensitivity(EngineEntry entry) => entry.Sensitivity is not { } sensitivity
        ? string.Empty
        : string.Create(CultureInfo.InvariantCulture, $"{(sensitivity < 0 ? "−" : string.Empty)}{UncertaintyWords.Number(Math.Abs(sensitivity))} µm/{Unit(entry.Input)}");

    private static string Unit(InputKind input) => input switch
    {
        InputKind.SieveAperture => "µm",
        InputKind.TakingTestPortion or InputKind.GivenPercentage => "%",
        _ => "g",
    };

    private static string Words(EngineEntry entry)
    {
        var sieve = entry.Aperture is { } aperture ? $"{Say.Micrometres(aperture)} sieve" : "sieve";
        return entry.Input switch
        {
            InputKind.EmptySieve => $"weighing of the empty {sieve}",
            InputKind.LoadedSieve => $"weighing of the loaded {sieve}",
            InputKind.SieveAfterSieving => $"weighing of the {sieve} after sieving",
            InputKind.EmptyReceiver => "weighing of the empty receiver",
            InputKind.ReceiverAfterSieving => "weighing of the receiver after sieving",
            InputKind.TestPortion => "weighing of the test portion",
            InputKind.EmptyDrift => $"drift of the empty {sieve}",
            InputKind.IncompleteSieving => $"incomplete sieving on the {sieve}",
            InputKind.TakingTestPortion => "taking the test portion",
            InputKind.SieveAperture => $"aperture of the {sieve}",
            InputKind.GivenPercentage => $"given passing of the {sieve}",
            _ => throw new ArgumentOutOfRangeException(nameof(entry), entry.Input, "Not an input."),
        };
    }
}
