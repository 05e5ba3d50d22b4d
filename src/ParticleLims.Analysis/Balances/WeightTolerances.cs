using System.Collections.Immutable;
using ParticleLims.Analysis.Quantities;

namespace ParticleLims.Analysis.Balances;

/// <summary>
/// How far a weight may be from its nominal mass (docs/science/weight-tolerances.md). Source: OIML R 111-1:2004, table 1, as quoted publicly; one slip of the quotation (5 mg, M1) is put right.
/// </summary>
public static class WeightTolerances
{
    private static readonly ImmutableArray<Row> Rows =
    [
        new(1_000, [3, 6, 20, 60, 200]),
        new(2_000, [3, 6, 20, 60, 200]),
        new(5_000, [3, 6, 20, 60, 200]),
        new(10_000, [3, 8, 25, 80, 250]),
        new(20_000, [3, 10, 30, 100, 300]),
        new(50_000, [4, 12, 40, 120, 400]),
        new(100_000, [5, 16, 50, 160, 500]),
        new(200_000, [6, 20, 60, 200, 600]),
        new(500_000, [8, 25, 80, 250, 800]),
        new(1_000_000, [10, 30, 100, 300, 1_000]),
        new(2_000_000, [12, 40, 120, 400, 1_200]),
        new(5_000_000, [16, 50, 160, 500, 1_600]),
        new(10_000_000, [20, 60, 200, 600, 2_000]),
        new(20_000_000, [25, 80, 250, 800, 2_500]),
        new(50_000_000, [30, 100, 300, 1_000, 3_000]),
        new(100_000_000, [50, 160, 500, 1_600, 5_000]),
        new(200_000_000, [100, 300, 1_000, 3_000, 10_000]),
        new(500_000_000, [250, 800, 2_500, 8_000, 25_000]),
        new(1_000_000_000, [500, 1_600, 5_000, 16_000, 50_000]),
        new(2_000_000_000, [1_000, 3_000, 10_000, 30_000, 100_000]),
        new(5_000_000_000, [2_500, 8_000, 25_000, 80_000, 250_000]),
    ];

    /// <summary>The nominal masses of the table, smallest first: 1 mg to 5 kg.</summary>
    public static ImmutableArray<Mass> Nominals { get; } = [.. Rows.Select(row => Mass.FromMicrograms(row.Nominal))];

    /// <summary>The maximum permissible error, plus or minus; null for a nominal mass without a row.</summary>
    public static Mass? Of(Mass nominal, WeightClass weightClass) => Rows.FirstOrDefault(row => row.Nominal == nominal.Micrograms) is { } row
        ? Mass.FromMicrograms(row.Errors[(int)weightClass])
        : null;

    private sealed record Row(long Nominal, ImmutableArray<long> Errors);
}
