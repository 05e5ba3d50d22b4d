namespace ParticleLims.Analysis.Quantities;

/// <summary>What happens to a value that lies exactly halfway between two printable ones (ISO 80000-1:2009, annex B; docs/science/rounding.md).</summary>
public enum Rounding
{
    /// <summary>To the even last digit: 0.25 becomes 0.2 (rule A of ISO 80000-1, annex B).</summary>
    HalfEven,

    /// <summary>Away from zero: 0.25 becomes 0.3 (rule B of ISO 80000-1, annex B, for positive values).</summary>
    HalfAwayFromZero,
}
