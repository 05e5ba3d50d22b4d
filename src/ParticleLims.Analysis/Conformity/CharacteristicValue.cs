using ParticleLims.Analysis.Distributions;
using ParticleLims.Analysis.Quantities;

namespace ParticleLims.Analysis.Conformity;

/// <summary>
/// What is known of a characteristic: the interval in which it lies, a single number where it was measured. A null bound is no bound.
/// Open means the bound itself is not reached.
/// </summary>
internal sealed record CharacteristicValue
{
    public Ratio? Low { get; init; }

    public bool LowIsOpen { get; init; }

    public Ratio? High { get; init; }

    public bool HighIsOpen { get; init; }

    /// <summary>Whether the bounds are exact fractions; if not they are doubles, and limits are compared as doubles.</summary>
    public required bool IsExact { get; init; }

    public required Relation Relation { get; init; }

    /// <summary>The number reported: the value, or the bound that the relation speaks of.</summary>
    public required Ratio Reported { get; init; }

    public static CharacteristicValue Exactly(Ratio value) => Known(value, true);

    public static CharacteristicValue Nearly(double value) => Known(Ratio.FromDouble(value), false);

    public static CharacteristicValue Known(Ratio value, bool isExact) => new()
    {
        Low = value,
        High = value,
        IsExact = isExact,
        Relation = Relation.Equal,
        Reported = value,
    };

    /// <summary>
    /// Below a number, and not below zero; open where the number itself is not reached.
    /// </summary>
    public static CharacteristicValue BelowOf(Ratio value, bool isExact, bool isOpen) => new()
    {
        Low = Ratio.Zero,
        High = value,
        HighIsOpen = isOpen,
        IsExact = isExact,
        Relation = Relation.Below,
        Reported = value,
    };

    /// <summary>Above a number, and not above the highest possible one if there is such.</summary>
    public static CharacteristicValue AboveOf(Ratio value, bool isExact, bool isOpen, Ratio? highest = null) => new()
    {
        Low = value,
        LowIsOpen = isOpen,
        High = highest,
        IsExact = isExact,
        Relation = Relation.Above,
        Reported = value,
    };
}
