using ParticleLims.Analysis.Quantities;
using ParticleLims.Laboratory.Record;

namespace ParticleLims.Laboratory.Samples;

/// <summary>What is written down when a sample arrives; it stands on the certificate, and a slip in it can be corrected.</summary>
/// <param name="TakenAt">When it was taken; null where nobody knows.</param>
/// <param name="TakenBy">By whom.</param>
/// <param name="SamplingWay">Where and how: sampling point, tool, plan.</param>
/// <param name="Description">What it looks like, and its container.</param>
/// <param name="ConditionOnReceipt">Sealed, dry, damaged, …</param>
/// <param name="Division">How it was divided down to the test portion.</param>
/// <param name="Increments">Increments taken or containers opened; null where nobody knows.</param>
/// <param name="Mass">The mass of the sample; null where it was not weighed.</param>
/// <param name="Recorded">What the sampling plan asks to be written down; null for nothing.</param>
public sealed record SampleParticulars(
    DateTimeOffset? TakenAt, string TakenBy, string SamplingWay, string Description, string ConditionOnReceipt, SampleDivision Division, int? Increments = null, Mass? Mass = null, string? Recorded = null)
{
    /// <summary>The most letters of what is written down on arrival.</summary>
    public const int LongestRecorded = 1_000;

    /// <summary>Whether it says the same of what a sampling plan asks for.</summary>
    internal bool SampledLike(SampleParticulars other) => (Increments, Mass, Recorded) == (other.Increments, other.Mass, other.Recorded);

    /// <summary>In UTC, without blanks at the ends of the texts.</summary>
    internal SampleParticulars Tidied => this with
    {
        TakenAt = TakenAt?.ToUniversalTime(), TakenBy = TakenBy.Trim(), SamplingWay = SamplingWay.Trim(), Description = Description.Trim(), ConditionOnReceipt = ConditionOnReceipt.Trim(),
        Recorded = Recorded.OrNothing(),
    };

    /// <summary>Refuses, in words, what no sample can be.</summary>
    /// <param name="received">When the sample was received.</param>
    /// <exception cref="RefusedException">Says which member and why.</exception>
    internal void Require(DateTimeOffset received)
    {
        if (TakenBy.Length == 0 || SamplingWay.Length == 0 || Description.Length == 0 || ConditionOnReceipt.Length == 0)
        {
            throw new RefusedException("sample-incomplete", "Say by whom and how the sample was taken, what it is, and its condition on receipt. All of it stands on the certificate.", "sample");
        }

        if (Increments is < 1 or > 10_000)
        {
            throw new RefusedException("sample-increments", "A sample is made of 1 to 10 000 increments. Leave the number out if nobody knows it.", "increments");
        }

        if (Mass is { } mass && (mass <= Analysis.Quantities.Mass.Zero || mass > Analysis.Quantities.Mass.FromGrams(1_000_000m)))
        {
            throw new RefusedException("sample-mass", "A sample weighs more than 0 g and at most 1 000 kg. Leave the mass out if it was not weighed.", "mass");
        }

        if (Recorded?.Length > LongestRecorded)
        {
            throw new RefusedException("sample-recorded", "What is written down on arrival has at most 1 000 letters.", "recorded");
        }

        if (TakenAt > received)
        {
            throw new RefusedException("sample-from-the-future", "The sample cannot have been taken later than it was received.", "takenAt");
        }
    }
}
