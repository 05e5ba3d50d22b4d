using System.Globalization;
using ParticleLims.Analysis.Uncertainty;
using ParticleLims.Laboratory.Runs;
using ParticleLims.Pictures.Plots;
using ParticleLims.Web.Controls;
using EngineEntry = ParticleLims.Analysis.Uncertainty.BudgetEntry;

namespace ParticleLims.Web.Evaluations;

/// <summary>The budget of an uncertainty in words.</summary>
internal static class UncertaintyBudgets
{
    /// <summary>The budget of a characteristic.</summary>
    public static Budget Of(string title, BudgetSubject subject) => new()
    {
        Title = $"{title}, {subject.Name}",
        Entries = [.. subject.Uncertainty.Budget.Select(entry => new Pictures.Plots.BudgetEntry(Words(entry), entry.SharePercent, Amount(entry), Sensitivity(entry, subject.Unit)))],
        Total = $"u({subject.Name}) = {(subject.Unit == "µm" ? Say.Micrometres(subject.Uncertainty.StandardUncertainty, 2) : WithUnit(subject))}",
    };

    private static string WithUnit(BudgetSubject subject) => UncertaintyWords.Number(subject.Uncertainty.StandardUncertainty) + (subject.Unit == "1" ? string.Empty : $" {subject.Unit}");

    private static string Amount(EngineEntry entry) => $"{UncertaintyWords.Number(entry.StandardUncertainty)} {Unit(entry.Input)}";

    // In the characteristic's unit per unit of the input.
    private static string Sensitivity(EngineEntry entry, string unit) => entry.Sensitivity is not { } sensitivity
        ? string.Empty
        : string.Create(CultureInfo.InvariantCulture, $"{(sensitivity < 0 ? "−" : string.Empty)}{UncertaintyWords.Number(Math.Abs(sensitivity))} {Per(unit, Unit(entry.Input))}");

    private static string Per(string unit, string input) => unit.Contains('/', StringComparison.Ordinal) ? $"({unit})/{input}" : $"{unit}/{input}";

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
