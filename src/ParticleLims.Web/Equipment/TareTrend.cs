using ParticleLims.Analysis.Quantities;
using ParticleLims.Laboratory.Runs;
using ParticleLims.Laboratory.Sieves;
using ParticleLims.Pictures.Plots;
using ParticleLims.Web.Shell;

namespace ParticleLims.Web.Equipment;

/// <summary>The empty mass of a sieve over time as a picture.</summary>
internal static class TareTrend
{
    /// <summary>So far from the mass of the beginning a value is marked: 20 mg, what a residue in the mesh weighs (common practice, no source).</summary>
    public static Mass Striking { get; } = Mass.FromMicrograms(20_000);

    public static ControlChart Of(TestSieve sieve, IReadOnlyList<TarePoint> tares, LaboratoryClock clock)
    {
        // Held against how it began: a mass that creeps takes its own recent median with it.
        var beginning = TareHistory.Usual([.. tares.OrderBy(tare => tare.At).Take(10)]);
        return new ControlChart
        {
            Title = $"Empty mass of sieve {sieve.Serial}", ValueName = "Empty mass, g", OrderName = "Date", Decimals = 4,
            Points = [.. tares.Select(tare => new ControlPoint(clock.Day(tare.At), (double)tare.Mass.Grams, beginning is { } middle && Far(tare.Mass, middle) ? "far from the beginning" : null, At: tare.At))],
            Lines = beginning is { } level ? [
                ControlLine.Level("beginning", ControlLineKind.Centre, (double)level.Grams),
                ControlLine.Level("striking", ControlLineKind.Limit, (double)(level + Striking).Grams),
                ControlLine.Level("striking", ControlLineKind.Limit, (double)(level - Striking).Grams),
            ] : [],
        };
    }

    private static bool Far(Mass mass, Mass beginning) => Math.Abs((mass - beginning).Micrograms) > Striking.Micrograms;
}
