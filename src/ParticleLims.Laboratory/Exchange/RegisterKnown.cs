using System.Globalization;
using Microsoft.EntityFrameworkCore;
using ParticleLims.Analysis.Quantities;
using ParticleLims.Laboratory.Balances;
using ParticleLims.Laboratory.Equipment;
using ParticleLims.Laboratory.Sieves;
using ParticleLims.Laboratory.SievingUnits;
using ParticleLims.Laboratory.Storage;

namespace ParticleLims.Laboratory.Exchange;

/// <summary>What the laboratory's own register holds while a file is held against it.</summary>
internal sealed class RegisterKnown
{
    private readonly Dictionary<string, TestSieve> sieves;
    private readonly Dictionary<string, Balance> balances;
    private readonly Dictionary<string, CheckWeight> weights;
    private readonly Dictionary<string, SievingUnit> units;
    private readonly Dictionary<string, ReferenceMaterial> materials;

    private RegisterKnown(List<TestSieve> allSieves, List<Balance> allBalances, List<CheckWeight> allWeights, List<SievingUnit> allUnits, List<ReferenceMaterial> allMaterials, List<string> formats)
    {
        units = allUnits.ToDictionary(one => one.Serial, StringComparer.Ordinal);
        materials = allMaterials.ToDictionary(one => one.Label, StringComparer.Ordinal);
        sieves = allSieves.ToDictionary(one => one.Serial, StringComparer.Ordinal);
        balances = allBalances.ToDictionary(one => one.Serial, StringComparer.Ordinal);
        weights = allWeights.ToDictionary(one => one.Serial, StringComparer.Ordinal);
        Formats = formats;
    }

    /// <summary>The names of the reading formats.</summary>
    public IReadOnlyList<string> Formats { get; }

    /// <summary>Reads it; a register is small beside what is weighed with it.</summary>
    public static async Task<RegisterKnown> ReadAsync(LaboratoryContext data, CancellationToken cancellation) => new(
        await data.TestSieves.AsNoTracking().ToListAsync(cancellation), await data.Balances.AsNoTracking().ToListAsync(cancellation), await data.CheckWeights.AsNoTracking().ToListAsync(cancellation),
        await data.SievingUnits.AsNoTracking().ToListAsync(cancellation), await data.ReferenceMaterials.AsNoTracking().ToListAsync(cancellation),
        await data.ReadingFormats.AsNoTracking().OrderBy(one => one.Name).Select(one => one.Name).ToListAsync(cancellation));

    /// <summary>Whether an item of the row's kind and serial number is there, and in what the file says otherwise.</summary>
    public bool Has(RegisterRow row, out IReadOnlyList<RowFinding> differences)
    {
        var (found, differing) = row switch
        {
            SieveRow { Card: var card } when sieves.GetValueOrDefault(row.Serial) is { } sieve =>
                (true, WithPlate(Differences(("aperture", sieve.Aperture.ToString(), card.Aperture.ToString()), ("frameMillimetres", Millimetres(sieve.FrameMillimetres), Millimetres(card.FrameMillimetres)), ("standard", sieve.Standard, card.Standard.Trim())), sieve, card.Plate)),
            BalanceRow { Card: var card } when balances.GetValueOrDefault(row.Serial) is { } balance =>
                (true, WithPlate(Differences(("name", balance.Name, card.Name.Trim()), ("readability", Grams(balance.Readability), Grams(card.Readability)), ("capacity", Grams(balance.Capacity), Grams(card.Capacity))), balance, card.Plate)),
            WeightRow { Card: var card } when weights.GetValueOrDefault(row.Serial) is { } weight =>
                (true, WithPlate(Differences(("nominal", Grams(weight.Nominal), Grams(card.Nominal)), ("class", weight.Class.ToString(), card.Class.ToString())), weight, card.Plate)),
            UnitRow { Card: var card } when units.GetValueOrDefault(row.Serial) is { } unit =>
                (true, WithPlate(Differences(("name", unit.Name, card.Name.Trim()), ("isAirJet", KindOf(unit.IsAirJet), KindOf(card.IsAirJet))), unit, card.Plate)),
            MaterialRow { Card: var card } when materials.GetValueOrDefault(row.Serial) is { } material =>
                (true, Differences(("certificate", material.Certificate, card.Certificate.Trim()), ("goodUntil", Day(material.GoodUntil), Day(card.GoodUntil)), ("points", material.Points, card.Points.Trim()))),
            _ => (false, []),
        };
        differences = differing;
        return found;
    }

    private static List<RowFinding> Differences(params (string Member, string Here, string There)[] values) =>
        [.. values.Where(value => value.Here != value.There).Select(value => new RowFinding(value.Member, $"{value.Here} in the register, {value.There} in the file. The register stays as it is."))];

    // What the file leaves out contradicts nothing.
    private static List<RowFinding> WithPlate(List<RowFinding> differences, IEquipment item, TypePlate given)
    {
        var (here, there) = (TypePlate.Of(item), given.Trimmed());
        return [.. differences, .. Differences([.. new[] { ("maker", here.Maker, there.Maker), ("model", here.Model, there.Model), ("software", here.Software, there.Software) }
            .Where(one => one.Item3 is not null).Select(one => (one.Item1, one.Item2 ?? "nothing", one.Item3!))])];
    }

    private static string KindOf(bool isAirJet) => isAirJet ? "air jet" : "shaker";

    private static string Day(DateOnly day) => day.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture);

    private static string Millimetres(int millimetres) => string.Create(CultureInfo.InvariantCulture, $"{millimetres} mm");

    private static string Grams(Mass mass) => string.Create(CultureInfo.InvariantCulture, $"{mass.Grams:0.######} g");
}
