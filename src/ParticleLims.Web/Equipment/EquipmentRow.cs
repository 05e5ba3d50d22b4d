using ParticleLims.Laboratory.Balances;
using ParticleLims.Laboratory.Equipment;
using ParticleLims.Laboratory.Runs;
using ParticleLims.Laboratory.Sieves;
using ParticleLims.Laboratory.SievingUnits;
using ParticleLims.Web.Controls;

namespace ParticleLims.Web.Equipment;

/// <summary>A sieve, a balance or a sieving unit as the one list shows it.</summary>
internal sealed record EquipmentRow(IEquipment Item, string What, string Place, string Address)
{
    /// <summary>What its empty mass or its checks ask for; null where they ask for nothing.</summary>
    public string? Asks { get; private init; }

    public static EquipmentRow Of(TestSieve sieve) => new(sieve, $"Test sieve {SieveWords.Aperture(sieve.Aperture)}", sieve.Place, $"/equipment/sieves/{sieve.Id}")
    {
        Asks = sieve is { State: EquipmentState.InService, TareSignal: { } signal } ? $"Inspect: {signal}" : null,
    };

    public static EquipmentRow Of(Balance balance) => new(balance, $"Balance {balance.Name}", balance.Place, $"/equipment/balances/{balance.Id}");

    public static EquipmentRow Of(SievingUnit unit) => new(unit, $"Sieving unit {unit.Name}", unit.Place, $"/equipment/sieving-units/{unit.Id}");

    public static EquipmentRow Of(CheckWeight weight) => new(weight, $"Check weight {Say.Grams(weight.Nominal, weight.Nominal.Grams < 1 ? 3 : 0)} {weight.Class}", weight.Place, $"/equipment/check-weights/{weight.Id}");

    /// <summary>The same of a sieve whose runs are used up, or nearly.</summary>
    public EquipmentRow After(int runs, int? most) => this with { Asks = Asks ?? $"Inspect: {SieveFitness.RunsWords(runs, most)}" };

    /// <summary>The same of a sieve whose check with a reference material is overdue or near.</summary>
    public EquipmentRow Asking(ReferenceDue due, DateOnly today) => this with { Asks = Asks is null ? $"Check: {due.Words(today)}" : $"{Asks}; {due.Words(today)}" };

    /// <summary>The same of a balance whose repeatability test is overdue or near.</summary>
    public EquipmentRow Asking(RepeatabilityDue? due, DateOnly today) => Item.State == EquipmentState.InService && due?.IsNear(today) == true ? this with { Asks = $"Test: {due.Words(today)}" } : this;

    /// <summary>The same with what the checks of a sieving unit ask for.</summary>
    public EquipmentRow Asking(UnitFitness? fitness, DateOnly today) =>
        Item.State == EquipmentState.InService && fitness?.Dues.Where(due => due.IsNear(today)).Select(due => $"{due.Kind.Words()} {due.Words(today)}").ToList() is { Count: > 0 } near
            ? this with { Asks = $"Check: {string.Join("; ", near)}" } : this;

    /// <summary>Whether the words stand in its serial number, what it is, or its place.</summary>
    public bool Answers(string words) => words.Length == 0 || $"{Item.Serial} {What} {Place}".Contains(words, StringComparison.OrdinalIgnoreCase);
}
