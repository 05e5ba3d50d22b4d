using ParticleLims.Laboratory.Investigations;

namespace ParticleLims.Laboratory.Demonstration;

/// <summary>What a reviewer of the demonstration writes where nothing was found.</summary>
internal static class CaseWords
{
    public static string InOrder(PhasePoint point) => point switch
    {
        PhasePoint.Retained => "Rest of the portion, fractions and sieves lie untouched on the second shelf of the cupboard.",
        PhasePoint.Technician => "Talked through the run step by step: no spill, no knock, no pause.",
        PhasePoint.Method => "The version in force, the portion within its range, the sieves from the finest to the coarsest.",
        PhasePoint.Weighings => "Every weighing from the balance itself; none keyed, none taken again.",
        PhasePoint.Evaluation => "Computed again: the same numbers to the last bit, against the limits of the specification.",
        PhasePoint.Balance => "Checked that morning and level; the check weight within 0.2 mg.",
        PhasePoint.Sieves => "Held against the lamp: no tear, no slack cloth; the empty masses within 3 mg of their history.",
        PhasePoint.Division => "Sealed on arrival, divided by the rotary divider; the label is the lot's.",
        PhasePoint.Sieving => "Time and differential pressure as the method asks, the end point met.",
        PhasePoint.Room => "38 % relative humidity, 21 °C; nothing clung to the lid.",
        PhasePoint.History => "The last ten lots lie well inside the limits.",
        _ => throw new ArgumentOutOfRangeException(nameof(point), point, "Not a point."),
    };
}
