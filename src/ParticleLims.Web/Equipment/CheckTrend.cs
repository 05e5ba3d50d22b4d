using ParticleLims.Laboratory.Balances;
using ParticleLims.Laboratory.SievingUnits;
using ParticleLims.Pictures.Plots;
using ParticleLims.Web.Shell;

namespace ParticleLims.Web.Equipment;

/// <summary>The checks of a balance or of a sieving unit over time as a picture, between what they may be off.</summary>
internal static class CheckTrend
{
    /// <summary>What the display of the daily check was off, in mg.</summary>
    public static ControlChart Of(Balance balance, IReadOnlyList<BalanceCheck> checks, LaboratoryClock clock) => Chart(
        $"Daily checks of balance {balance.Serial}", "Off by, mg", 1, balance.CheckTolerance.Micrograms / 1_000.0,
        checks.Reverse().Select(check => new ControlPoint(clock.Day(check.At), (check.Shown - check.Nominal).Micrograms / 1_000.0, check.Passed ? null : "failed", At: check.At)));

    /// <summary>What one kind of check found off, in percent of what was set; null where it has no figures or fewer than two checks.</summary>
    public static ControlChart? Of(SievingUnit unit, UnitCheckPlan plan, IReadOnlyList<UnitCheck> checks, LaboratoryClock clock)
    {
        var figures = checks.Where(check => check.Kind == plan.Kind && check is { Indicated: not null, Measured: not null }).Reverse().ToList();
        return figures.Count < 2 || plan.TolerancePercent is not { } tolerance ? null : Chart(
            $"Checks of unit {unit.Serial}: {plan.Kind.Words()}", "Measured off what was set, %", 2, (double)tolerance,
            figures.Select(check => new ControlPoint(clock.Day(check.At), (check.Measured!.Value - check.Indicated!.Value) * 100.0 / check.Indicated.Value, check.Passed ? null : "failed", At: check.At)));
    }

    private static ControlChart Chart(string title, string value, int decimals, double permitted, IEnumerable<ControlPoint> points) => new()
    {
        Title = title, ValueName = value, OrderName = "Date", Decimals = decimals, Points = [.. points],
        Lines = [ControlLine.Level("no deviation", ControlLineKind.Centre, 0), ControlLine.Level("permitted", ControlLineKind.Limit, permitted), ControlLine.Level("permitted", ControlLineKind.Limit, -permitted)],
    };
}
