namespace ParticleLims.Pictures.Scales;

/// <summary>One mark on a scale.</summary>
/// <param name="Value">The value it stands at, in the scale's own unit.</param>
/// <param name="Label">What is printed beside it; empty on a minor tick.</param>
public readonly record struct Tick(double Value, string Label)
{
    /// <summary>Whether the tick is printed with its value.</summary>
    public bool IsMajor => Label.Length > 0;
}
