using ParticleLims.Analysis.Quantities;

namespace ParticleLims.Analysis.Distributions.Rules;

/// <summary>How the curve runs inside one segment, between the points i and i + 1; percentages increase strictly there.</summary>
internal abstract class CurveRule
{
    /// <summary>The size in µm at a percentage strictly between the segment's two.</summary>
    public abstract double SizeAt(int segment, Ratio percent);

    /// <summary>The percentage at a size in µm strictly between the segment's two.</summary>
    public abstract double PercentAt(int segment, double micrometres);

    /// <summary>The percentage exactly, where the rule allows it.</summary>
    public virtual Ratio? ExactPercentAt(int segment, Aperture aperture) => null;
}
