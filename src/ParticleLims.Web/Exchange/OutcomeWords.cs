using ParticleLims.Laboratory.Exchange;

namespace ParticleLims.Web.Exchange;

/// <summary>What would become of a row, in words, as a mark and in the order of reading.</summary>
internal static class OutcomeWords
{
    public static string Words(this RowOutcome outcome) => outcome switch
    {
        RowOutcome.Add => "to be added",
        RowOutcome.AlreadyThere => "already there",
        RowOutcome.LeftOut => "left out",
        RowOutcome.Wrong => "wrong",
        _ => throw new ArgumentOutOfRangeException(nameof(outcome), outcome, "Not an outcome."),
    };

    public static string Kind(this RowOutcome outcome) => outcome switch
    {
        RowOutcome.Add => "good",
        RowOutcome.AlreadyThere => "wait",
        RowOutcome.Wrong => "bad",
        _ => "off",
    };

    public static int Order(this RowOutcome outcome) => outcome switch
    {
        RowOutcome.Wrong => 0,
        RowOutcome.AlreadyThere => 1,
        RowOutcome.LeftOut => 2,
        _ => 3,
    };
}
