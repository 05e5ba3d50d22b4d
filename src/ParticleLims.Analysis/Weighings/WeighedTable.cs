using ParticleLims.Analysis.Quantities;

namespace ParticleLims.Analysis.Weighings;

/// <summary>What the weighings of one run say, finest aperture first.</summary>
internal sealed record WeighedTable
{
    public required IReadOnlyList<MeasuredCut> Cuts { get; init; }

    /// <summary>How much of the powder was found again, in percent (docs/science/recovery.md); null where it was not weighed.</summary>
    public Ratio? RecoveryPercent { get; init; }

    public IReadOnlyList<TransferLoss> TransferLosses { get; init; } = [];
}
