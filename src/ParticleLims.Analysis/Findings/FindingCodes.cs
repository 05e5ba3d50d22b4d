namespace ParticleLims.Analysis.Findings;

/// <summary>The codes of all findings. They are part of the REST interface and never change their meaning.</summary>
public static class FindingCodes
{
    /// <summary>Refusal: a choice is none of the named ones.</summary>
    public const string UnknownChoice = "unknown-choice";

    /// <summary>Refusal: fewer than one cut.</summary>
    public const string NoCuts = "no-cuts";

    /// <summary>Refusal: more cuts, percentiles or limits than an evaluation takes.</summary>
    public const string TooMany = "too-many";

    /// <summary>Refusal: a cut without an aperture.</summary>
    public const string ApertureMissing = "aperture-missing";

    /// <summary>Refusal: an aperture beyond one metre.</summary>
    public const string ApertureTooLarge = "aperture-too-large";

    /// <summary>Refusal: the same aperture on two cuts.</summary>
    public const string ApertureTwice = "aperture-twice";

    /// <summary>Refusal: a mass that the procedure needs is not there.</summary>
    public const string MassMissing = "mass-missing";

    /// <summary>Refusal: a weighing below zero.</summary>
    public const string MassNegative = "mass-negative";

    /// <summary>Refusal: a weighing beyond one tonne.</summary>
    public const string MassTooLarge = "mass-too-large";

    /// <summary>Refusal: a sieve weighs more after sieving than before, by more than the weighings explain.</summary>
    public const string MassGained = "mass-gained";

    /// <summary>Refusal: a sieve or receiver weighs less after sieving than empty, by more than the weighings explain.</summary>
    public const string ResidueBelowZero = "residue-below-zero";

    /// <summary>Refusal: the test portion is zero or less.</summary>
    public const string PortionZero = "portion-zero";

    /// <summary>Refusal: the test portion is needed and not given.</summary>
    public const string PortionMissing = "portion-missing";

    /// <summary>Refusal: the receiver's weighings are needed and not given.</summary>
    public const string ReceiverMissing = "receiver-missing";

    /// <summary>Refusal: a member that has no meaning for this procedure or characteristic.</summary>
    public const string NotApplicable = "not-applicable";

    /// <summary>Refusal: a given distribution without the percentage passing.</summary>
    public const string PassingMissing = "passing-missing";

    /// <summary>Refusal: a percentage outside its range.</summary>
    public const string PercentOutsideRange = "percent-outside-range";

    /// <summary>Refusal: a limit without any bound, or with the lower above the upper.</summary>
    public const string LimitBounds = "limit-bounds";

    /// <summary>Refusal: a limit that does not say which percentile or which aperture.</summary>
    public const string LimitIncomplete = "limit-incomplete";

    /// <summary>Refusal: more or fewer decimals than can be shown.</summary>
    public const string DigitsOutsideRange = "digits-outside-range";

    /// <summary>Note: a residue slightly outside the possible was set to the nearest possible one.</summary>
    public const string ResidueClamped = "residue-clamped";

    /// <summary>Finding or note: passing decreases from one aperture to the next coarser one.</summary>
    public const string NotMonotone = "not-monotone";

    /// <summary>Note: the percentiles come from a curve that was made monotone.</summary>
    public const string CurveRepaired = "curve-repaired";

    /// <summary>Finding: less was found again than the method asks for.</summary>
    public const string RecoveryLow = "recovery-low";

    /// <summary>Finding: more was found again than was put on.</summary>
    public const string RecoveryAboveWhole = "recovery-above-100";

    /// <summary>Note: the recovery with a collector is a lower bound.</summary>
    public const string RecoveryIsLowerBound = "recovery-lower-bound";

    /// <summary>Finding: the method limits the recovery, and it was not weighed.</summary>
    public const string RecoveryUnknown = "recovery-unknown";

    /// <summary>Finding: the method limits the transfer losses, and not every transfer was weighed.</summary>
    public const string TransferLossUnknown = "transfer-loss-unknown";

    /// <summary>Note: powder was lost (or seemed to be gained) between two sieves.</summary>
    public const string TransferLoss = "transfer-loss";

    /// <summary>Finding: more was lost between the sieves than the method allows.</summary>
    public const string TransferLossHigh = "transfer-loss-high";

    /// <summary>Note: effective apertures were given and the nominal ones used, as the settings say.</summary>
    public const string EffectiveApertureUnused = "effective-aperture-unused";

    /// <summary>Note: a model could not be fitted to these points.</summary>
    public const string NoFit = "no-fit";

    /// <summary>Note: near 0 or 100 % the chosen net has no finite scale, and the logarithmic rule was used.</summary>
    public const string NetHasNoEnd = "net-has-no-end";

    /// <summary>Note: the specific surface is that of the mass between the finest and the coarsest aperture only.</summary>
    public const string SurfaceOfMeasuredPart = "surface-of-measured-part";

    /// <summary>Refusal: an uncertainty, a density or a shape factor outside its range, or not given where it belongs.</summary>
    public const string QuantityOutsideRange = "quantity-outside-range";

    /// <summary>Refusal: a decision rule with a guard band, and nothing from which an uncertainty follows. Finding: a replicate whose uncertainty was not evaluated.</summary>
    public const string UncertaintyMissing = "uncertainty-missing";

    /// <summary>Refusal: effective apertures that do not rise as the nominal ones do.</summary>
    public const string ApertureOrder = "aperture-order";

    /// <summary>Note: the settings say effective apertures, and a sieve has none; its nominal one was used.</summary>
    public const string EffectiveApertureMissing = "effective-aperture-missing";

    /// <summary>Note: no uncertainty of any aperture was given; sizes are as uncertain as the percentages alone make them.</summary>
    public const string ApertureUncertaintyMissing = "aperture-uncertainty-missing";

    /// <summary>Note: the limits lie nearer to each other than twice the expanded uncertainty.</summary>
    public const string LimitNarrow = "limit-narrow";

    /// <summary>Finding: the guard bands leave no value that would be accepted.</summary>
    public const string LimitEmpty = "limit-empty";

    /// <summary>Note: a size may lie outside the measured apertures; its interval is that of the curve inside them.</summary>
    public const string SizeNearEnd = "size-near-end";

    /// <summary>Note: so few trials that the ends of the intervals are not stable.</summary>
    public const string FewTrials = "few-trials";

    /// <summary>Finding: in some trials a characteristic has no value, so its uncertainty is not stated.</summary>
    public const string UncertaintyUndefined = "uncertainty-undefined";

    /// <summary>Finding: the replicates lie further apart than the method's repeatability limit.</summary>
    public const string ReplicatesApart = "replicates-apart";
}
