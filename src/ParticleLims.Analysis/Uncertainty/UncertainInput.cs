using ParticleLims.Analysis.Quantities;

namespace ParticleLims.Analysis.Uncertainty;

/// <summary>One input of the measurement with its standard uncertainty in its own unit. All inputs are independent of each other.</summary>
/// <param name="Kind">What it is.</param>
/// <param name="Cut">The place of its cut, finest first; -1 where it belongs to the whole run.</param>
/// <param name="Aperture">The nominal aperture of its cut.</param>
/// <param name="StandardUncertainty">Its standard uncertainty in the unit of the kind, above zero.</param>
internal sealed record UncertainInput(InputKind Kind, int Cut, Aperture? Aperture, double StandardUncertainty);
