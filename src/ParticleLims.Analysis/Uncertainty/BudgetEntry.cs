using ParticleLims.Analysis.Quantities;

namespace ParticleLims.Analysis.Uncertainty;

/// <summary>One line of an uncertainty budget (GUM, JCGM 100:2008, 7.2.7; EA-4/02, clause 6; docs/science/uncertainty-propagation.md).</summary>
public sealed record BudgetEntry
{
    /// <summary>What the input is; it says the unit.</summary>
    public required InputKind Input { get; init; }

    /// <summary>The nominal aperture of the cut it belongs to; null where it belongs to the whole run.</summary>
    public Aperture? Aperture { get; init; }

    /// <summary>The standard uncertainty in the input's unit (g, µm or percent).</summary>
    public required double StandardUncertainty { get; init; }

    /// <summary>The sensitivity coefficient, in the characteristic's unit per unit of the input; null for an input that moves all percentages in its own way each.</summary>
    public double? Sensitivity { get; init; }

    /// <summary>The contribution |c| u to the combined standard uncertainty, in the characteristic's unit.</summary>
    public required double Contribution { get; init; }

    /// <summary>Its share of the combined variance, in percent; all shares add up to 100 %.</summary>
    public required double SharePercent { get; init; }
}
