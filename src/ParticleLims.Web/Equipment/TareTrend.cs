using ParticleLims.Analysis.Quantities;
using ParticleLims.Laboratory.Runs;
using ParticleLims.Laboratory.Sieves;
using ParticleLims.Pictures.Plots;
using ParticleLims.Web.Shell;
using TareFindings = ParticleLims.Analysis.Sieves.Tares.TareHistory;

namespace ParticleLims.Web.Equipment;

/// <summary>The empty mass of a sieve over time as a picture.</summary>
internal static class TareTrend
{
    /// <summary>A single weighing so many standard deviations from the average is a step; the same width as the watch's.</summary>
    private static readonly double StepWidth = new Analysis.Sieves.Tares.TareSettings().StepWidth;

    public static ControlChart Of(TestSieve sieve, IReadOnlyList<TarePoint> tares, LaboratoryClock clock)
    {
        List<TarePoint> watched = [.. tares.Where(tare => sieve.TareFrom is not { } from || tare.At >= from)];
        var findings = TareFindings.Findings([.. watched.Select(tare => tare.Mass)], sieve.TareScatter).ToDictionary(finding => watched[finding.Index].At, finding => finding.Words);
        var limit = Mass.FromMicrograms((long)(StepWidth * sieve.TareScatter.Micrograms));
        return new ControlChart
        {
            Title = $"Empty mass of sieve {sieve.Serial}", ValueName = "Empty mass, g", OrderName = "Date", Decimals = 4,
            Points = [.. tares.Select(tare => new ControlPoint(clock.Day(tare.At), (double)tare.Mass.Grams, findings.GetValueOrDefault(tare.At), At: tare.At))],
            Lines = TareHistory.Usual([.. watched.Select(tare => tare.Mass)]) is { } level ? [
                ControlLine.Level("first weighings", ControlLineKind.Centre, (double)level.Grams),
                ControlLine.Level("step", ControlLineKind.Limit, (double)(level + limit).Grams),
                ControlLine.Level("step", ControlLineKind.Limit, (double)(level - limit).Grams),
            ] : [],
        };
    }
}
