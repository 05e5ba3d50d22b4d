using ParticleLims.Analysis.Findings;

namespace ParticleLims.Analysis.Conformity;

/// <summary>Refuses limits that are incomplete, contradict themselves or ask for what this version cannot do.</summary>
internal static class LimitCheck
{
    private const int MostLimits = 200;
    private const int MostGuardFactor = 10;

    public static void Run(IReadOnlyList<LimitInput> limits, FindingLog log)
    {
        ArgumentNullException.ThrowIfNull(limits);
        if (limits.Count > MostLimits)
        {
            log.Refuse(FindingCodes.TooMany, $"An evaluation takes at most {MostLimits} limits.", "limits");
        }

        for (var i = 0; i < limits.Count; i++)
        {
            Choices(limits[i], $"limits[{i}]", log);
            Subject(limits[i], $"limits[{i}]", log);
            Bounds(limits[i], $"limits[{i}]", log);
        }
    }

    /// <summary>What a limit needs of the request around it.</summary>
    public static void Against(EvaluationRequest request, FindingLog log)
    {
        for (var i = 0; i < request.Limits.Count; i++)
        {
            var limit = request.Limits[i];
            if (limit.Rule != DecisionRule.Simple && request.Uncertainty is null)
            {
                log.Refuse(FindingCodes.UncertaintyMissing, "A decision rule with a guard band needs the uncertainty of the result: say what it starts from, or choose simple acceptance.", $"limits[{i}].rule");
            }

            if (limit.Characteristic == Characteristic.SpecificSurface && request.Settings.TrueDensityGramsPerCubicCentimetre is null)
            {
                log.Refuse(FindingCodes.LimitIncomplete, "A limit on the specific surface needs the true density of the product.", $"limits[{i}].characteristic");
            }
        }
    }

    private static void Choices(LimitInput limit, string member, FindingLog log)
    {
        if (!Enum.IsDefined(limit.Characteristic))
        {
            log.Refuse(FindingCodes.UnknownChoice, "The characteristic is none of the named ones.", member + ".characteristic");
        }

        if (!Enum.IsDefined(limit.Rule))
        {
            log.Refuse(FindingCodes.UnknownChoice, "The decision rule is none of the named ones.", member + ".rule");
        }

        if (limit.GuardFactor is < 0m or > MostGuardFactor)
        {
            log.Refuse(FindingCodes.QuantityOutsideRange, $"The guard band is between 0 and {MostGuardFactor} times the expanded uncertainty.", member + ".guardFactor");
        }
    }

    private static void Subject(LimitInput limit, string member, FindingLog log)
    {
        var ofPercentile = limit.Characteristic == Characteristic.Percentile;
        var ofAperture = limit.Characteristic is Characteristic.Passing or Characteristic.Retained;
        if (ofPercentile && limit.Percent is not (> 0m and < 100m))
        {
            log.Refuse(FindingCodes.LimitIncomplete, "A limit on a percentile says which: between 0 % and 100 %.", member + ".percent");
        }

        if (ofAperture && limit.Aperture is not { Nanometres: > 0 })
        {
            log.Refuse(FindingCodes.LimitIncomplete, "A limit on what passes or is retained says at which aperture.", member + ".apertureMicrometres");
        }

        if (!ofPercentile && limit.Percent is not null)
        {
            log.Refuse(FindingCodes.NotApplicable, "Only a percentile has a percent.", member + ".percent");
        }

        if (!ofAperture && limit.Aperture is not null)
        {
            log.Refuse(FindingCodes.NotApplicable, "Only what passes or is retained has an aperture.", member + ".apertureMicrometres");
        }
    }

    private static void Bounds(LimitInput limit, string member, FindingLog log)
    {
        if (limit.Lower is null && limit.Upper is null)
        {
            log.Refuse(FindingCodes.LimitBounds, "A limit has a lower bound, an upper bound or both.", member);
        }

        if (limit.Lower > limit.Upper)
        {
            log.Refuse(FindingCodes.LimitBounds, "The lower bound lies above the upper one: nothing could conform.", member + ".lower");
        }

        if (limit.Digits is < 0 or > 9)
        {
            log.Refuse(FindingCodes.DigitsOutsideRange, "Between 0 and 9 decimals are shown.", member + ".digits");
        }

        if (limit.RepeatabilityLimit < 0m)
        {
            log.Refuse(FindingCodes.LimitBounds, "A repeatability limit is not negative.", member + ".repeatabilityLimit");
        }
    }
}
