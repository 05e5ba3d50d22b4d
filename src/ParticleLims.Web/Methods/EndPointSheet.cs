using ParticleLims.Analysis.Quantities;
using ParticleLims.Analysis.Weighings;
using ParticleLims.Laboratory.Methods;

namespace ParticleLims.Web.Methods;

/// <summary>How an editor begins with the end point of sieving.</summary>
internal enum EndPointStart
{
    /// <summary>The fixed time alone.</summary>
    FixedTime,
    /// <summary>The pharmacopoeias' rule for sieves of 200 mm.</summary>
    Pharmacopoeia,
    /// <summary>The aggregate standard's rule.</summary>
    Aggregate,
    /// <summary>The laboratory's own numbers.</summary>
    Own,
}

/// <summary>The end point as it stands in the editor, in the units that people type.</summary>
internal sealed class EndPointSheet
{
    public static readonly EndPointStart[] Starts = Enum.GetValues<EndPointStart>();

    private int start;

    /// <summary>The place of the chosen rule; choosing one writes its numbers into the fields.</summary>
    public int Start
    {
        get => start;
        set
        {
            start = value;
            switch (Starts[value])
            {
                case EndPointStart.Pharmacopoeia:
                    Fill(EndPointPlan.By(EndPointRule.Pharmacopoeia, 300, 4));
                    break;
                case EndPointStart.Aggregate:
                    Fill(EndPointPlan.By(EndPointRule.Aggregate, 60, 5));
                    break;
            }
        }
    }

    public decimal? Seconds { get; set; }
    public decimal? MostIntervals { get; set; }
    public decimal? MostChangePercent { get; set; }
    public decimal? MostChange { get; set; }
    public decimal? MostChangeOfPortion { get; set; }
    public decimal? SmallResidue { get; set; }
    public decimal? SmallResidueMostChange { get; set; }

    public bool IsAsked => Starts[Start] != EndPointStart.FixedTime;

    public static string Words(EndPointStart start) => start switch
    {
        EndPointStart.FixedTime => "fixed time, no further interval",
        EndPointStart.Pharmacopoeia => "as the pharmacopoeias on 200 mm (from memory)",
        EndPointStart.Aggregate => "as ASTM C136 for aggregates (from a check list)",
        EndPointStart.Own => "own numbers",
        _ => throw new ArgumentOutOfRangeException(nameof(start), start, "Not a start."),
    };

    public static EndPointSheet Of(EndPointPlan? plan)
    {
        var sheet = new EndPointSheet();
        if (plan is not null)
        {
            sheet.start = Array.IndexOf(Starts, EndPointStart.Own);
            sheet.Fill(plan);
        }

        return sheet;
    }

    public EndPointPlan? Plan() => !IsAsked ? null : new EndPointPlan
    {
        IntervalSeconds = (int)(Seconds ?? 0), MostIntervals = (int)(MostIntervals ?? 0), MostChangePercent = MostChangePercent, MostChange = MostChange is { } grams ? Mass.FromGrams(grams) : null,
        MostChangeOfPortionPercent = MostChangeOfPortion, SmallResiduePercent = SmallResidue, SmallResidueMostChangePercent = SmallResidueMostChange,
    };

    private void Fill(EndPointPlan plan)
    {
        (Seconds, MostIntervals, MostChangePercent, MostChange) = (plan.IntervalSeconds, plan.MostIntervals, plan.MostChangePercent, plan.MostChange?.Grams);
        (MostChangeOfPortion, SmallResidue, SmallResidueMostChange) = (plan.MostChangeOfPortionPercent, plan.SmallResiduePercent, plan.SmallResidueMostChangePercent);
    }
}
