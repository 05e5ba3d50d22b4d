using ParticleLims.Analysis.Quantities;

namespace ParticleLims.Laboratory.Specifications;

/// <summary>One point in which a sample falls short of its sampling plan.</summary>
public abstract record SamplingShortfall;

/// <summary>Fewer increments than asked.</summary>
/// <param name="Taken">How many were taken; null where nobody knows.</param>
/// <param name="Asked">How many are asked for.</param>
public sealed record IncrementsShort(int? Taken, int Asked) : SamplingShortfall;

/// <summary>Less powder than asked.</summary>
/// <param name="Came">The mass of the sample; null where it was not weighed.</param>
/// <param name="Least">The least mass that is asked for.</param>
public sealed record MassShort(Mass? Came, Mass Least) : SamplingShortfall;

/// <summary>Something that was to be written down on arrival was not.</summary>
/// <param name="Asked">What was to be written down.</param>
public sealed record NotWrittenDown(string Asked) : SamplingShortfall;
