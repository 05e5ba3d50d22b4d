namespace ParticleLims.Analysis.Findings;

/// <summary>How much a finding weighs.</summary>
public enum FindingSeverity
{
    /// <summary>Worth knowing; nobody need act.</summary>
    Note,

    /// <summary>A reviewer must look at it.</summary>
    Finding,

    /// <summary>There is no result.</summary>
    Refusal,
}
