using ParticleLims.Analysis.Quantities;

namespace ParticleLims.Instruments.Pressures;

/// <summary>The differential pressure at a moment.</summary>
/// <param name="At">When its line was complete here.</param>
/// <param name="Pressure">The pressure.</param>
public sealed record PressurePoint(DateTimeOffset At, Pressure Pressure);
