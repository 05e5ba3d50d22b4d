using ParticleLims.Analysis.Quantities;
using ParticleLims.Laboratory.Samples;
using ParticleLims.Web.Shell;

namespace ParticleLims.Web.Samples;

/// <summary>What is written down of a sample, while it is typed.</summary>
public sealed class SampleDraft
{
    internal static readonly SampleDivision[] Divisions = Enum.GetValues<SampleDivision>();

    /// <summary>In the laboratory's zone, as the browser's field writes it; null or empty where nobody knows.</summary>
    public string? TakenAt { get; set; }
    public string TakenBy { get; set; } = string.Empty;
    public string SamplingWay { get; set; } = string.Empty;
    public string Description { get; set; } = string.Empty;
    public string Condition { get; set; } = string.Empty;
    public string Recorded { get; set; } = string.Empty;

    /// <summary>Position among the ways of dividing.</summary>
    public int Division { get; set; }
    public decimal? Increments { get; set; }

    /// <summary>In grams.</summary>
    public decimal? Grams { get; set; }

    /// <summary>What stands there already.</summary>
    public static SampleDraft Of(SampleParticulars known, LaboratoryClock clock)
    {
        ArgumentNullException.ThrowIfNull(known);
        ArgumentNullException.ThrowIfNull(clock);
        return new SampleDraft
        {
            TakenAt = known.TakenAt is { } at ? clock.Moment(at).Replace(' ', 'T') : null, TakenBy = known.TakenBy, SamplingWay = known.SamplingWay, Description = known.Description,
            Condition = known.ConditionOnReceipt, Recorded = known.Recorded ?? string.Empty, Division = Array.IndexOf(Divisions, known.Division), Increments = known.Increments, Grams = known.Mass?.Grams,
        };
    }

    /// <summary>What was typed.</summary>
    /// <param name="takenAt">The instant that <see cref="TakenAt"/> names.</param>
    public SampleParticulars Read(DateTimeOffset? takenAt) =>
        new(takenAt, TakenBy, SamplingWay, Description, Condition, Divisions[Division], (int?)Increments, Grams is { } grams ? Mass.FromGrams(grams) : null, Recorded);
}
