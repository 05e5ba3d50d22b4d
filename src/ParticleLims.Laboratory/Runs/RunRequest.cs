using ParticleLims.Analysis;
using ParticleLims.Analysis.Conformity;
using ParticleLims.Analysis.Distributions;
using ParticleLims.Analysis.Quantities;
using ParticleLims.Analysis.Weighings;
using ParticleLims.Laboratory.Balances;
using ParticleLims.Laboratory.Methods;
using ParticleLims.Laboratory.Specifications;

namespace ParticleLims.Laboratory.Runs;

/// <summary>Turns a run's standing weighings, its method and its limits into what the engine evaluates.</summary>
internal static class RunRequest
{
    /// <summary>The request for a run. Sieves that are not finished are left out, so the curve can grow beside the run.</summary>
    public static EvaluationRequest? Of(Run run, MethodVersion method, Balance balance, IReadOnlyList<Limit> limits)
    {
        var cuts = run.Sieves.OrderBy(sieve => sieve.Position).Where(sieve => run.Find(WeighingKind.After, sieve.Position) is not null).Select(sieve => Cut(run, sieve)).ToList();
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
            WeighingStandardUncertainty = WeighingUncertainty.Of(balance.Repeatability, balance.Readability, Mass.Zero),
            Settings = new EvaluationSettings
            {
                Interpolation = method.Reading == CurveReading.Linear ? Interpolation.Linear : Interpolation.LogLinear,
                Percentiles = method.PercentileList,
                MinimumRecoveryPercent = method.LeastRecoveryPercent,
                MaximumTransferLossPercent = method.MostTransferLossPercent,
            },
            Limits = [.. limits.OrderBy(limit => limit.Position).Select(limit => LimitOf(limit, method))],
        };
    }

    private static LimitInput LimitOf(Limit limit, MethodVersion method) => new()
    {
        Characteristic = limit.Characteristic switch
        {
            LimitCharacteristic.Passing => Characteristic.Passing,
            LimitCharacteristic.Retained => Characteristic.Retained,
            LimitCharacteristic.Percentile => Characteristic.Percentile,
            LimitCharacteristic.Span => Characteristic.Span,
            LimitCharacteristic.RosinRammlerSlope => Characteristic.RosinRammlerSlope,
            LimitCharacteristic.RosinRammlerSize => Characteristic.RosinRammlerSize,
            _ => throw new ArgumentOutOfRangeException(nameof(limit), limit.Characteristic, "Not a characteristic."),
        },
        Aperture = limit.Aperture, Percent = limit.Percent, Lower = limit.Lower, Upper = limit.Upper, Digits = limit.Digits, Rule = DecisionRule.Simple,
        RepeatabilityLimit = limit.Characteristic is LimitCharacteristic.Passing or LimitCharacteristic.Retained ? method.RepeatabilityLimitPercent : null,
    };

    private static CutInput Cut(Run run, RunSieve sieve) => new()
    {
        Aperture = sieve.Aperture,
        Empty = run.Find(WeighingKind.Empty, sieve.Position)?.Mass,
        Loaded = run.Find(WeighingKind.Loaded, sieve.Position)?.Mass,
        After = run.Find(WeighingKind.After, sieve.Position)?.Mass,
    };

    private static ReceiverInput? Receiver(Run run) =>
        run.Find(WeighingKind.ReceiverEmpty, 0) is { } empty && run.Find(WeighingKind.ReceiverAfter, 0) is { } after ? new ReceiverInput { Empty = empty.Mass, After = after.Mass } : null;

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
