using ParticleLims.Analysis;
using ParticleLims.Analysis.Conformity;
using ParticleLims.Analysis.Distributions;
using ParticleLims.Analysis.Quantities;
using ParticleLims.Analysis.Sieves;
using ParticleLims.Analysis.Uncertainty;
using ParticleLims.Analysis.Weighings;
using ParticleLims.Laboratory.Balances;
using ParticleLims.Laboratory.Methods;
using ParticleLims.Laboratory.Products;
using ParticleLims.Laboratory.Specifications;

namespace ParticleLims.Laboratory.Runs;

/// <summary>Turns a run's standing weighings, its method and its limits into what the engine evaluates.</summary>
internal static class RunRequest
{
    /// <summary>The request for a run. Sieves that are not finished are left out, so the curve can grow beside the run.</summary>
    public static EvaluationRequest? Of(Run run, MethodVersion method, Product product, Balance balance, IReadOnlyList<Limit> limits)
    {
        var cuts = run.Sieves.OrderBy(sieve => sieve.Position).Where(sieve => run.Find(WeighingKind.After, sieve.Position) is not null).Select(sieve => Cut(run, sieve, method.EffectiveApertures)).ToList();
        if (cuts.Count == 0 || (method.Procedure == SievingProcedure.NestedStack && run.Find(WeighingKind.ReceiverAfter, 0) is null))
        {
            return null;
        }

        return new EvaluationRequest
        {
            Procedure = ProcedureOf(method.Procedure),
            Cuts = cuts,
            Portion = Difference(run, WeighingKind.ContainerLoaded, WeighingKind.ContainerEmpty),
            Receiver = Receiver(run),
            Collected = Collected(run),
            WeighingStandardUncertainty = WeighingUncertainty.Of(balance.Repeatability, balance.Readability, Mass.Zero),
            Settings = new EvaluationSettings
            {
                Interpolation = method.Reading switch
                {
                    CurveReading.Linear => Interpolation.Linear,
                    CurveReading.LogLinear => Interpolation.LogLinear,
                    CurveReading.RosinRammler => Interpolation.RosinRammler,
                    CurveReading.LogNormal => Interpolation.LogNormal,
                    CurveReading.MonotoneCubic => Interpolation.MonotoneCubic,
                    _ => throw new ArgumentOutOfRangeException(nameof(method), method.Reading, "Not a way of reading."),
                },
                TrueDensityGramsPerCubicCentimetre = product.TrueDensityGramsPerCubicCentimetre,
                ShapeFactor = product.ShapeFactor,
                Percentiles = method.PercentileList,
                Apertures = method.EffectiveApertures ? ApertureChoice.Effective : ApertureChoice.Nominal,
                MinimumRecoveryPercent = method.LeastRecoveryPercent,
                MaximumTransferLossPercent = method.MostTransferLossPercent,
            },
            Uncertainty = new UncertaintyInput
            {
                BalanceRepeatability = balance.Repeatability, Readability = balance.Readability, PortionStandardUncertaintyPercent = method.PortionUncertaintyPercent ?? 0m,
            },
            Limits = [.. limits.OrderBy(limit => limit.Position).Select(limit => LimitOf(limit, method.RepeatabilityLimitPercent))],
        };
    }

    /// <summary>A limit as the engine judges it.</summary>
    internal static LimitInput LimitOf(Limit limit, decimal? repeatabilityLimitPercent) => new()
    {
        Characteristic = limit.Characteristic switch
        {
            LimitCharacteristic.Passing => Characteristic.Passing,
            LimitCharacteristic.Retained => Characteristic.Retained,
            LimitCharacteristic.Percentile => Characteristic.Percentile,
            LimitCharacteristic.Span => Characteristic.Span,
            LimitCharacteristic.RosinRammlerSlope => Characteristic.RosinRammlerSlope,
            LimitCharacteristic.RosinRammlerSize => Characteristic.RosinRammlerSize,
            LimitCharacteristic.SpecificSurface => Characteristic.SpecificSurface,
            _ => throw new ArgumentOutOfRangeException(nameof(limit), limit.Characteristic, "Not a characteristic."),
        },
        Aperture = limit.Aperture, Percent = limit.Percent, Lower = limit.Lower, Upper = limit.Upper, Digits = limit.Digits, GuardFactor = limit.GuardFactor,
        Rule = limit.Rule switch
        {
            LimitRule.Simple => DecisionRule.Simple,
            LimitRule.Guarded => DecisionRule.Guarded,
            LimitRule.FourState => DecisionRule.FourState,
            _ => throw new ArgumentOutOfRangeException(nameof(limit), limit.Rule, "Not a decision rule."),
        },
        RepeatabilityLimit = Narrower(limit.Characteristic is LimitCharacteristic.Passing or LimitCharacteristic.Retained ? repeatabilityLimitPercent : null, limit.GreatestSpread),
    };

    // The specification may demand more than the method, never less.
    private static decimal? Narrower(decimal? method, decimal? specification) => method < specification ? method : specification ?? method;

    private static CutInput Cut(Run run, RunSieve sieve, bool effective) => new()
    {
        Aperture = sieve.Aperture,
        Empty = run.Find(WeighingKind.Empty, sieve.Position)?.Mass,
        Loaded = run.Find(WeighingKind.Loaded, sieve.Position)?.Mass,
        After = run.Find(WeighingKind.After, sieve.Position)?.Mass,
        EffectiveAperture = effective ? sieve.EffectiveAperture : null,
        ApertureStandardUncertainty = (effective ? sieve.EffectiveUncertainty : null) ?? ApertureUncertainty(sieve),
        LastIntervalChange = LastChange(run, sieve.Position),
    };

    // Incomplete sieving shows in what the last further interval still changed, be it up or down.
    private static Mass? LastChange(Run run, int position) =>
        run.Find(WeighingKind.After, position) is { Round: > 0 } last && run.Find(WeighingKind.After, position, last.Round - 1) is { } before
            ? Mass.FromMicrograms(Math.Abs((before.Mass - last.Mass).Micrograms))
            : null;

    /// <summary>
    /// A sieve that meets its standard may have its mean aperture anywhere within the permissible deviation: half width over the root of three (GUM, JCGM 100:2008, 4.3.7). The laboratory's own table
    /// counts before the formula; sieves outside the formula's range, 20 µm to 125 mm, have no such statement without a table.
    /// </summary>
    private static Aperture? ApertureUncertainty(RunSieve sieve) => DeviationMicrometres(sieve) is { } deviation ? Aperture.FromNanometres((long)Math.Round(deviation / Math.Sqrt(3) * 1_000)) : null;

    private static double? DeviationMicrometres(RunSieve sieve) => sieve.MeanDeviation is { } own ? own.Nanometres / 1_000.0
        : sieve.Aperture.Micrometres is >= 20m and <= 125_000m ? WireClothTolerances.MeanDeviation(sieve.Aperture) : null;

    private static ReceiverInput? Receiver(Run run) =>
        run.Find(WeighingKind.ReceiverEmpty, 0) is { } empty && run.Find(WeighingKind.ReceiverAfter, 0) is { } after ? new ReceiverInput { Empty = empty.Mass, After = after.Mass } : null;

    // A collector that shows less than before, within what the balance allows, has collected nothing.
    private static Mass? Collected(Run run) => Difference(run, WeighingKind.CollectorAfter, WeighingKind.CollectorEmpty) is { } fines ? fines < Mass.Zero ? Mass.Zero : fines : null;

    private static Mass? Difference(Run run, WeighingKind gross, WeighingKind tare) =>
        run.Find(gross, 0) is { } with && run.Find(tare, 0) is { } without ? with.Mass - without.Mass : null;

    private static Procedure ProcedureOf(SievingProcedure procedure) => procedure switch
    {
        SievingProcedure.SeparatePortions => Procedure.SeparatePortions,
        SievingProcedure.CarriedResidue => Procedure.CarriedResidue,
        SievingProcedure.NestedStack => Procedure.NestedStack,
        _ => throw new ArgumentOutOfRangeException(nameof(procedure), procedure, "Not a procedure."),
    };
}
