namespace ParticleLims.Laboratory.Demonstration.Model;

/// <summary>Seeded chance: the same seed gives the same numbers. It is good for models and never for secrets.</summary>
internal sealed class Chance(int seed)
{
    private readonly Random random = new(seed);

    /// <summary>A chance of its own for one thing, so that what happens to other things does not change it.</summary>
    public Chance For(int thing) => new(unchecked((seed * 1_000_003) ^ (thing * 7_919)));

    /// <summary>Evenly between two numbers.</summary>
    public double Between(double least, double most) => least + ((most - least) * random.NextDouble());

    /// <summary>A whole number from the least to the most, both included.</summary>
    public int Whole(int least, int most) => random.Next(least, most + 1);

    /// <summary>One of several.</summary>
    public T Of<T>(IReadOnlyList<T> several) => several[random.Next(several.Count)];

    /// <summary>Whether something with this probability happens.</summary>
    public bool Happens(double probability) => random.NextDouble() < probability;

    /// <summary>A normal deviate cut off at so many standard deviations, so that a history has the surprises it plans and no others.</summary>
    public double Normal(double cutOff = 3)
    {
        double deviate;
        do
        {
            deviate = Math.Sqrt(-2 * Math.Log(1 - random.NextDouble())) * Math.Cos(2 * Math.PI * random.NextDouble());
        }
        while (Math.Abs(deviate) > cutOff);
        return deviate;
    }
}
