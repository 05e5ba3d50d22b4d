using ParticleLims.Laboratory.Sieves;
using ParticleLims.Pictures.Plots;
using ParticleLims.Web.Shell;

namespace ParticleLims.Web.Equipment;

/// <summary>The effective aperture of a sieve over time as a picture, between the deviations that a new sieve may have.</summary>
internal static class EffectiveTrend
{
    public static ControlChart Of(TestSieve sieve, SieveMeasured measured, LaboratoryClock clock)
    {
        var nominal = (double)sieve.Aperture.Micrometres;
        return new ControlChart
        {
            Title = $"Effective aperture of sieve {sieve.Serial}", ValueName = "Effective aperture, µm", OrderName = "Date", Decimals = 2,
            Points = [.. measured.Checks.OrderBy(check => check.At).Select(check => new ControlPoint(clock.Day(check.At), (double)check.Effective.Micrometres, check.Passed ? null : "failed", At: check.At))],
            Lines = (double?)measured.PermittedMicrometres is { } y
                ? [ControlLine.Level("nominal", ControlLineKind.Centre, nominal), ControlLine.Level("permitted", ControlLineKind.Limit, nominal + y), ControlLine.Level("permitted", ControlLineKind.Limit, nominal - y)]
                : [ControlLine.Level("nominal", ControlLineKind.Centre, nominal)],
        };
    }
}
