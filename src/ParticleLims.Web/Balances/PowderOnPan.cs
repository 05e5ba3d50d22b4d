using ParticleLims.Analysis.Quantities;
using ParticleLims.Laboratory.Methods;
using ParticleLims.Laboratory.Runs;
using ParticleLims.Laboratory.Specifications;

namespace ParticleLims.Web.Balances;

/// <summary>
/// What a believable powder would weigh at a step of a run, for the demonstration's pan. A Rosin-Rammler powder whose median lies in the
/// middle of the specification and whose slope keeps its limits; the same run and step always give the same mass.
/// </summary>
public static class PowderOnPan
{
    private const double UsualSlope = 1.9;

    // The share of what a limit allows that the powder uses, so that it conforms without lying on the limit.
    private const double ShareOfAllowed = 0.7;
    private const double KeptInTransfer = 0.9985;

    // The share of a residue that the first further interval still lets through.
    private const double StillPasses = 0.004;

    // A cyclone lets the finest powder through.
    private const double CaughtInCollector = 0.97;

    /// <summary>The mass on the pan at a step.</summary>
    /// <param name="view">The run with what was weighed so far.</param>
    /// <param name="step">A weighing.</param>
    /// <param name="usualTare">What the sieve usually weighs; null where that is not known yet.</param>
    public static Mass For(RunView view, RunStep step, Mass? usualTare)
    {
        ArgumentNullException.ThrowIfNull(view);
        ArgumentNullException.ThrowIfNull(step);
        var run = view.Run;
        return step.Weighing switch
        {
            WeighingKind.Empty => usualTare ?? Grams(252 + (Scatter(run, step.Position) * 60)),
            WeighingKind.ReceiverEmpty => Grams(311.4 + Scatter(run, 90)),
            WeighingKind.ContainerEmpty => Grams(48.2 + Scatter(run, 91)),
            WeighingKind.ContainerLoaded => Standing(run, WeighingKind.ContainerEmpty, 0) + Portion(view, 0),
            WeighingKind.Loaded => Standing(run, WeighingKind.Empty, step.Position) + LoadedPowder(view, step.Position),
            WeighingKind.After when step.Round > 0 => Standing(run, WeighingKind.After, step.Position) - Part(Standing(run, WeighingKind.After, step.Position) - Standing(run, WeighingKind.Empty, step.Position), StillPasses / step.Round),
            WeighingKind.After => Standing(run, WeighingKind.Empty, step.Position) + Residue(view, step.Position),
            WeighingKind.CollectorEmpty => Grams(182.6 + Scatter(run, 92)),
            WeighingKind.CollectorAfter => Standing(run, WeighingKind.CollectorEmpty, 0) + Part(Passed(view), CaughtInCollector),
            WeighingKind.ReceiverAfter => Standing(run, WeighingKind.ReceiverEmpty, 0) + Part(PortionOf(run), KeptInTransfer * (1 - Retained(view, 1))),
            _ => throw new ArgumentOutOfRangeException(nameof(step), step, "Only a weighing puts something on the pan."),
        };
    }

    // Whatever left the sieves went into the collector.
    private static Mass Passed(RunView view) => view.Run.Sieves.Aggregate(Mass.Zero, (sum, sieve) => sum + Standing(view.Run, WeighingKind.Loaded, sieve.Position) - Standing(view.Run, WeighingKind.After, sieve.Position));

    private static Mass LoadedPowder(RunView view, int position) =>
        view.Method.Procedure == SievingProcedure.SeparatePortions || position == 1
            ? Portion(view, position)
            : Part(Standing(view.Run, WeighingKind.After, position - 1) - Standing(view.Run, WeighingKind.Empty, position - 1), KeptInTransfer);

    private static Mass Residue(RunView view, int position)
    {
        if (view.Method.Procedure == SievingProcedure.NestedStack)
        {
            var coarser = view.Run.Sieves.Exists(sieve => sieve.Position == position + 1) ? Retained(view, position + 1) : 0;
            return Part(PortionOf(view.Run), KeptInTransfer * (Retained(view, position) - coarser));
        }

        var powder = Standing(view.Run, WeighingKind.Loaded, position) - Standing(view.Run, WeighingKind.Empty, position);
        var before = view.Method.Procedure == SievingProcedure.SeparatePortions || position == 1 ? 1 : Retained(view, position - 1);
        return Part(powder, Retained(view, position) / before);
    }

    // R = exp(-(x/x')^n), with x' such that half of the mass is finer than the median.
    private static double Retained(RunView view, int position)
    {
        var aperture = (double)view.Run.Sieves.Single(sieve => sieve.Position == position).Aperture.Micrometres;
        var slope = Slope(view);
        var size = Median(view) / Math.Pow(Math.Log(2), 1 / slope);
        var lotScatter = 1 + (0.04 * (Scatter(view.Run, 50) - 0.5));
        return Math.Exp(-Math.Pow(aperture / (size * lotScatter), slope));
    }

    private static double Median(RunView view)
    {
        var limit = view.Specification.Limits.Find(limit => limit is { Characteristic: LimitCharacteristic.Percentile, Percent: 50, Lower: not null, Upper: not null });
        if (limit is not null)
        {
            return (double)(limit.Lower!.Value + limit.Upper!.Value) / 2;
        }

        var apertures = view.Run.Sieves.Select(sieve => Math.Log((double)sieve.Aperture.Micrometres)).ToList();
        return Math.Exp((apertures.Min() + Math.Log(0.6) + apertures.Max()) / 2);
    }

    // Steep enough that no more is coarser than the limits allow: R(a) = 2^-((a/median)^n).
    private static double Slope(RunView view)
    {
        var median = Median(view);
        var steepest = UsualSlope;
        foreach (var limit in view.Specification.Limits.Where(limit => limit.Aperture is { } aperture && (double)aperture.Micrometres > median * 1.1))
        {
            var allowed = limit switch
            {
                { Characteristic: LimitCharacteristic.Passing, Lower: { } least } => (double)(100 - least) / 100,
                { Characteristic: LimitCharacteristic.Retained, Upper: { } most } => (double)most / 100,
                _ => 1,
            };
            if (allowed is > 0 and < 0.5)
            {
                steepest = Math.Max(steepest, Math.Log(-Math.Log2(ShareOfAllowed * allowed)) / Math.Log((double)limit.Aperture!.Value.Micrometres / median));
            }
        }

        return steepest;
    }

    private static Mass Portion(RunView view, int position)
    {
        var (least, most) = (view.Method.PortionLeast.Micrograms, view.Method.PortionMost.Micrograms);
        return ToMilligrams(least + ((most - least) * (0.4 + (0.2 * Scatter(view.Run, 70 + position)))));
    }

    private static Mass PortionOf(Run run) => Standing(run, WeighingKind.ContainerLoaded, 0) - Standing(run, WeighingKind.ContainerEmpty, 0);

    private static Mass Standing(Run run, WeighingKind kind, int position) => run.Find(kind, position)?.Mass ?? Mass.Zero;

    private static Mass Part(Mass whole, double share) => ToMilligrams(whole.Micrograms * share);

    private static Mass Grams(double grams) => ToMilligrams(grams * 1_000_000);

    private static Mass ToMilligrams(double micrograms) => Mass.FromMicrograms((long)Math.Round(micrograms / 1_000) * 1_000);

    // 0 to 1, from the run's key, so that it does not change between two looks at the page.
    private static double Scatter(Run run, int salt)
    {
        var bytes = run.Id.ToByteArray();
        var mixed = (bytes[15] * 31) + (bytes[14] * 17) + (bytes[13] * 7) + (salt * 101);
        return mixed % 256 / 255.0;
    }
}
