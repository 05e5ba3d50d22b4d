namespace ParticleLims.Analysis.Conformity;

/// <summary>How a value is held against a limit (ILAC-G8:09/2019, 4.2).</summary>
public enum DecisionRule
{
    /// <summary>Simple acceptance: a value on the limit or inside it conforms.</summary>
    Simple,

    /// <summary>Guarded acceptance (4.2.2): conforms inside the limit by the guard band, else does not.</summary>
    Guarded,

    /// <summary>Four states with guard bands on both sides of the limit (4.2.3).</summary>
    FourState,
}
