using ParticleLims.Analysis.Quantities;
using ParticleLims.Laboratory.Specifications;

namespace ParticleLims.Web.Specifications;

/// <summary>What makes a result and how the lot is sampled, as it stands in the editor, in the units that people type.</summary>
public sealed class SamplingSheet
{
    public static IReadOnlyList<Combination> Combinations { get; } = Enum.GetValues<Combination>();

    /// <summary>So many make one result; null: as many as the method asks for.</summary>
    public decimal? Determinations { get; set; }

    /// <summary>The place in <see cref="Combinations"/>.</summary>
    public int Combination { get; set; }

    /// <summary>Whether there is a sampling plan.</summary>
    public bool HasPlan { get; set; }
    public decimal? Increments { get; set; }
    public string Procedure { get; set; } = string.Empty;

    /// <summary>In g.</summary>
    public decimal? LeastMass { get; set; }
    public string ToRecord { get; set; } = string.Empty;

    public static SamplingSheet Of(SpecificationVersion version)
    {
        ArgumentNullException.ThrowIfNull(version);
        return new SamplingSheet
        {
            Determinations = version.Determinations, Combination = Array.IndexOf(Enum.GetValues<Combination>(), version.Combination), HasPlan = version.Sampling is not null, Increments = version.Sampling?.Increments,
            Procedure = version.Sampling?.Procedure ?? string.Empty, LeastMass = version.Sampling?.LeastMass?.Grams, ToRecord = version.Sampling?.ToRecord ?? string.Empty,
        };
    }

    /// <summary>The draft with all of it.</summary>
    public SpecificationDraft In(SpecificationDraft draft)
    {
        ArgumentNullException.ThrowIfNull(draft);
        return draft with
        {
            Determinations = (int?)Determinations, Combination = Combinations[Combination],
            Sampling = HasPlan ? new SamplingPlan { Increments = (int)(Increments ?? 0), Procedure = Procedure, LeastMass = LeastMass is { } grams ? Mass.FromGrams(grams) : null, ToRecord = string.IsNullOrWhiteSpace(ToRecord) ? null : ToRecord } : null,
        };
    }
}
