using System.Globalization;
using ParticleLims.Analysis.Conformity;
using ParticleLims.Analysis.Findings;
using ParticleLims.Analysis.Quantities;
using ParticleLims.Analysis.Weighings;

namespace ParticleLims.Analysis;

/// <summary>Refuses a request that is incomplete, contradicts itself or asks for what this version cannot do.</summary>
internal static class RequestCheck
{
    private const int MostCuts = 100;
    private const int MostPercentiles = 100;
    private const decimal LeastPositive = 0.000_001m;
    private const decimal MostDensity = 30m;
    private const decimal MostShapeFactor = 100m;
    private static readonly Aperture Coarsest = Aperture.FromMicrometres(1_000_000m);

    public static void Run(EvaluationRequest request, FindingLog log)
    {
        if (!Enum.IsDefined(request.Procedure))
        {
            log.Refuse(FindingCodes.UnknownChoice, "The procedure is none of the named ones.", "procedure");
            return;
        }

        if (!HasUsualCount(request, log))
        {
            return;
        }

        Apertures(request, log);
        CutCheck.Run(request, log);
        UncertaintyCheck.Run(request, log);
        WholeRun(request, log);
        Settings(request.Settings, log);
        LimitCheck.Run(request.Limits, log);
        LimitCheck.Against(request, log);
    }

    private static bool HasUsualCount(EvaluationRequest request, FindingLog log)
    {
        if (request.Cuts.Count < 1)
        {
            log.Refuse(FindingCodes.NoCuts, "There is no cut: an evaluation needs at least one sieve.", "cuts");
        }
        else if (request.Cuts.Count > MostCuts)
        {
            log.Refuse(FindingCodes.TooMany, $"An evaluation takes at most {MostCuts} cuts.", "cuts");
        }

        return !log.HasRefusal;
    }

    private static void Apertures(EvaluationRequest request, FindingLog log)
    {
        var seen = new HashSet<Aperture>();
        for (var i = 0; i < request.Cuts.Count; i++)
        {
            var aperture = request.Cuts[i].Aperture;
            if (aperture.Nanometres <= 0)
            {
                log.Refuse(FindingCodes.ApertureMissing, $"Cut {i + 1} has no aperture.", $"cuts[{i}].apertureMicrometres");
            }
            else if (aperture > Coarsest)
            {
                log.Refuse(FindingCodes.ApertureTooLarge, $"An aperture is at most {Coarsest}, not {aperture}.", $"cuts[{i}].apertureMicrometres");
            }
            else if (!seen.Add(aperture))
            {
                log.Refuse(FindingCodes.ApertureTwice, $"The aperture {aperture} stands on two cuts.", $"cuts[{i}].apertureMicrometres");
            }
        }

        if (!log.HasRefusal && request.Settings.Apertures == ApertureChoice.Effective)
        {
            EffectiveApertures(request, log);
        }
    }

    private static void EffectiveApertures(EvaluationRequest request, FindingLog log)
    {
        var cuts = OrderedCut.Of(request);
        for (var i = 0; i < cuts.Count; i++)
        {
            if (i > 0 && cuts[i].UsedAperture <= cuts[i - 1].UsedAperture)
            {
                log.Refuse(
                    FindingCodes.ApertureOrder,
                    $"The sieve {cuts[i].Aperture} is effectively {cuts[i].UsedAperture}, not coarser than {cuts[i - 1].UsedAperture} of the sieve {cuts[i - 1].Aperture}: one of the two is not the sieve it is taken for.",
                    cuts[i].Member("effectiveApertureMicrometres"));
            }
            else if (cuts[i].UsedAperture > Coarsest)
            {
                log.Refuse(FindingCodes.ApertureTooLarge, $"An aperture is at most {Coarsest}, not {cuts[i].UsedAperture}.", cuts[i].Member("effectiveApertureMicrometres"));
            }
        }
    }

    private static void WholeRun(EvaluationRequest request, FindingLog log)
    {
        var stack = request.Procedure == Procedure.NestedStack;
        var airJet = request.Procedure is Procedure.SeparatePortions or Procedure.CarriedResidue;
        MassCheck.Allowed(request.Portion, stack, "The test portion", "portionGrams", log);
        MassCheck.Allowed(request.Collected, airJet, "The collected mass", "collectedGrams", log);
        MassCheck.Allowed(request.WeighingStandardUncertainty, true, "The standard uncertainty of a weighing", "weighingStandardUncertaintyGrams", log);
        MassCheck.Allowed(request.Receiver?.Empty, stack, "The empty receiver", "receiver.emptyGrams", log);
        MassCheck.Allowed(request.Receiver?.After, stack, "The receiver after sieving", "receiver.afterGrams", log);
        if (stack && request.Settings.Basis == PercentBasis.Portion && request.Portion is null)
        {
            log.Refuse(FindingCodes.PortionMissing, "The percentages refer to the test portion, but its mass is missing.", "portionGrams");
        }

        if (stack && request.Settings.Basis == PercentBasis.SumOfFractions && request.Receiver is null)
        {
            log.Refuse(FindingCodes.ReceiverMissing, "The percentages refer to the sum of the fractions, but the receiver's weighings are missing.", "receiver");
        }
    }

    private static void Settings(EvaluationSettings settings, FindingLog log)
    {
        Choice(settings.Basis, "settings.basis", log);
        Choice(settings.Interpolation, "settings.interpolation", log);
        Choice(settings.Apertures, "settings.apertures", log);
        Choice(settings.Rounding, "settings.rounding", log);
        Choice(settings.TransferLoss, "settings.transferLoss", log);
        ShareOf(settings.MinimumRecoveryPercent, "The least recovery", "settings.minimumRecoveryPercent", log);
        ShareOf(settings.MaximumTransferLossPercent, "The greatest transfer loss", "settings.maximumTransferLossPercent", log);
        Positive(settings.TrueDensityGramsPerCubicCentimetre, MostDensity, "The true density in g/cm³", "settings.trueDensityGramsPerCubicCentimetre", log);
        Positive(settings.ShapeFactor, MostShapeFactor, "The shape factor", "settings.shapeFactor", log);
        if (settings.Percentiles.Count > MostPercentiles)
        {
            log.Refuse(FindingCodes.TooMany, $"An evaluation takes at most {MostPercentiles} percentiles.", "settings.percentiles");
        }

        for (var i = 0; i < settings.Percentiles.Count; i++)
        {
            if (settings.Percentiles[i] is not (> 0m and < 100m))
            {
                log.Refuse(FindingCodes.PercentOutsideRange, $"A percentile lies between 0 % and 100 %, not at {Text(settings.Percentiles[i])} %.", $"settings.percentiles[{i}]");
            }
        }
    }

    private static void Choice<T>(T value, string member, FindingLog log)
        where T : struct, Enum
    {
        if (!Enum.IsDefined(value))
        {
            log.Refuse(FindingCodes.UnknownChoice, "This is none of the named choices.", member);
        }
    }

    private static void ShareOf(decimal? percent, string what, string member, FindingLog log)
    {
        if (percent is not (null or (>= 0m and <= 100m)))
        {
            log.Refuse(FindingCodes.PercentOutsideRange, $"{what} lies between 0 % and 100 %.", member);
        }
    }

    private static void Positive(decimal? value, decimal most, string what, string member, FindingLog log)
    {
        if (value is not null && !(value >= LeastPositive && value <= most))
        {
            log.Refuse(FindingCodes.QuantityOutsideRange, $"{what} lies above zero and is at most {Text(most)}.", member);
        }
    }

    private static string Text(decimal value) => value.ToString(CultureInfo.InvariantCulture);
}
