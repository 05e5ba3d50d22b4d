using ParticleLims.Analysis.Quantities;

namespace ParticleLims.Analysis.Sieves;

/// <summary>
/// The permissible deviations of square holes in perforated plate, 125 to 9 mm (docs/science/sieve-tolerances.md). Source: ISO 3310-2, table 1, as quoted on a public page, whose edition is not named. It limits the single
/// hole, up and down, and says nothing of the mean.
/// </summary>
public static class PerforatedPlateTolerances
{
    /// <summary>The table.</summary>
    public static ToleranceTable Table { get; } = ToleranceTable.From(
        "ISO 3310-2, table 1, edition not named",
        "A public quotation of the table.",
        [
            Row(125000, 1000),
            Row(112000, 950),
            Row(106000, 900),
            Row(100000, 850),
            Row(90000, 800),
            Row(80000, 700),
            Row(75000, 700),
            Row(71000, 650),
            Row(63000, 600),
            Row(56000, 550),
            Row(53000, 550),
            Row(50000, 550),
            Row(45000, 500),
            Row(40000, 450),
            Row(37500, 450),
            Row(35500, 400),
            Row(31500, 400),
            Row(28000, 350),
            Row(26500, 350),
            Row(25000, 350),
            Row(22400, 300),
            Row(20000, 300),
            Row(19000, 290),
            Row(18000, 280),
            Row(16000, 270),
            Row(14000, 260),
            Row(13200, 250),
            Row(12500, 240),
            Row(11200, 230),
            Row(10000, 210),
            Row(9500, 210),
            Row(9000, 200),
        ]);

    private static ToleranceRow Row(long nominalMicrometres, decimal singleMicrometres) =>
        new() { Nominal = Aperture.FromNanometres(nominalMicrometres * 1_000), SingleMicrometres = singleMicrometres, SingleBelowMicrometres = singleMicrometres };
}
