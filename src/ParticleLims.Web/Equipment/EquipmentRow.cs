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

    /// <summary>Whether the words stand in its serial number, what it is, or its place.</summary>
    public bool Answers(string words) => words.Length == 0 || $"{Item.Serial} {What} {Place}".Contains(words, StringComparison.OrdinalIgnoreCase);
}
