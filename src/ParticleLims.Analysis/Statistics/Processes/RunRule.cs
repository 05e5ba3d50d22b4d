namespace ParticleLims.Analysis.Statistics.Processes;

/// <summary>
/// The eight run rules of Nelson, Journal of Quality Technology 16 (1984) 237, from memory (docs/science/run-rules.md). Four of them, the same-side run shortened to eight, are those of the
/// Western Electric Statistical Quality Control Handbook (1956).
/// </summary>
[Flags]
public enum RunRule
{
    /// <summary>None.</summary>
    None = 0,

    /// <summary>One point beyond three σ.</summary>
    BeyondThreeSigma = 1,

    /// <summary>Nine points in a row on one side of the centre (eight by Western Electric).</summary>
    RunOnOneSide = 2,

    /// <summary>Six points in a row, each above the last or each below it.</summary>
    SixInTrend = 4,

    /// <summary>Fourteen points in a row, up and down by turns.</summary>
    FourteenAlternating = 8,

    /// <summary>Two of three points in a row beyond two σ on the same side.</summary>
    TwoOfThreeBeyondTwoSigma = 16,

    /// <summary>Four of five points in a row beyond one σ on the same side.</summary>
    FourOfFiveBeyondOneSigma = 32,

    /// <summary>Fifteen points in a row within one σ.</summary>
    FifteenWithinOneSigma = 64,

    /// <summary>Eight points in a row beyond one σ, on either side.</summary>
    EightBeyondOneSigma = 128,

    /// <summary>The four of Western Electric.</summary>
    WesternElectric = BeyondThreeSigma | TwoOfThreeBeyondTwoSigma | FourOfFiveBeyondOneSigma | RunOnOneSide,

    /// <summary>All eight of Nelson.</summary>
    Nelson = WesternElectric | SixInTrend | FourteenAlternating | FifteenWithinOneSigma | EightBeyondOneSigma,
}
