using CsCheck;
using ParticleLims.Analysis.Quantities;
using ParticleLims.Analysis.Uncertainty;
using ParticleLims.Analysis.Weighings;

namespace ParticleLims.Analysis.Tests.Uncertainty;

/// <summary>Requests that can be evaluated, with an uncertainty of everything that can have one.</summary>
internal static class RandomUncertainties
{
    public static readonly Gen<UncertaintyInput> Input =
        Gen.Select(Gen.Int[1, 5_000], Gen.Int[0, 10_000], Gen.Int[0, 5_000], Gen.Int[0, 3_000], Gen.Int[0, 50]).Select((repeatability, readability, linearity, drift, portion) => new UncertaintyInput
        {
            BalanceRepeatability = Mass.FromMicrograms(repeatability),
            Readability = Mass.FromMicrograms(readability),
            Linearity = Mass.FromMicrograms(linearity),
            EmptyDrift = Mass.FromMicrograms(drift),
            PortionStandardUncertaintyPercent = portion / 100m,
        });

    public static readonly Gen<EvaluationRequest> Request =
        Gen.Select(RandomRequests.Sensible, Input, Gen.Int[0, 40], Gen.Int[0, 20_000], Gen.Bool).Select((request, input, perMille, change, putBack) => request with
        {
            Uncertainty = input,
            WeighingStandardUncertainty = null,
            Settings = request.Settings with { TransferLoss = putBack ? TransferLossRule.PutBackInProportion : TransferLossRule.CountAsPassing },
            Cuts = request.Cuts.Select((cut, i) => cut with
            {
                ApertureStandardUncertainty = perMille == 0 ? null : Aperture.FromNanometres(Math.Max(1, cut.Aperture.Nanometres * perMille / 1_000)),
                LastIntervalChange = request.Procedure == Procedure.GivenDistribution ? null : Mass.FromMicrograms(change),
                PassingStandardUncertaintyPercent = request.Procedure == Procedure.GivenDistribution ? (i + 1) / 10m : null,
            }).ToList(),
        });
}
