namespace ParticleLims.Analysis.Sieves.Tares;

/// <summary>How keenly a tare history is watched.</summary>
public sealed record TareSettings
{
    /// <summary>How many weighings make the mass that slow changes are measured from, 2 to 100.</summary>
    public int BaselineCount { get; init; } = 8;

    /// <summary>The weight λ of the newest weighing in the moving average, above 0 and at most 1, without unit.</summary>
    public double Weight { get; init; } = 0.2;

    /// <summary>How many standard deviations a single weighing may lie from the average, 1 to 10, without unit.</summary>
    public double StepWidth { get; init; } = 3.7;

    /// <summary>How many standard deviations the average may lie from the baseline, 1 to 10, without unit.</summary>
    public double SlowWidth { get; init; } = 3.7;

    internal void Check(string name)
    {
        if (BaselineCount is < 2 or > 100 || Weight is not (> 1e-6 and <= 1) || StepWidth is not (>= 1 and <= 10) || SlowWidth is not (>= 1 and <= 10))
        {
            throw new ArgumentException("A baseline has 2 to 100 weighings, a weight lies above 0 and at most at 1, and the widths lie between 1 and 10.", name);
        }
    }
}
