using ParticleLims.Laboratory.Balances;
using ParticleLims.Laboratory.Equipment;
using ParticleLims.Laboratory.Sieves;
using ParticleLims.Laboratory.SievingUnits;
using ParticleLims.Web.Controls;

namespace ParticleLims.Web.Equipment;

/// <summary>A sieve, a balance or a sieving unit as the one list shows it.</summary>
internal sealed record EquipmentRow(IEquipment Item, string What, string Place, string Address)
{
    public static EquipmentRow Of(TestSieve sieve) => new(sieve, $"Test sieve {SieveWords.Aperture(sieve.Aperture)}", sieve.Place, $"/equipment/sieves/{sieve.Id}");

    public static EquipmentRow Of(Balance balance) => new(balance, $"Balance {balance.Name}", balance.Place, $"/equipment/balances/{balance.Id}");

    public static EquipmentRow Of(SievingUnit unit) => new(unit, $"Sieving unit {unit.Name}", unit.Place, $"/equipment/sieving-units/{unit.Id}");

    public static EquipmentRow Of(CheckWeight weight) => new(weight, $"Check weight {Say.Grams(weight.Nominal, weight.Nominal.Grams < 1 ? 3 : 0)} {weight.Class}", weight.Place, $"/equipment/check-weights/{weight.Id}");

    /// <summary>What a sieve's empty mass asks for; null where it asks for nothing.</summary>
    public string? Asks => Item is TestSieve { State: EquipmentState.InService, TareSignal: { } signal } ? $"Inspect: {signal}" : null;

    /// <summary>Whether the words stand in its serial number, what it is, or its place.</summary>
    public bool Answers(string words) => words.Length == 0 || $"{Item.Serial} {What} {Place}".Contains(words, StringComparison.OrdinalIgnoreCase);
}
