using ParticleLims.Laboratory.Demonstration.Model;
using ParticleLims.Laboratory.Demonstration.Time;

namespace ParticleLims.Laboratory.Demonstration;

/// <summary>Which lots come when, and which story each of them has.</summary>
internal sealed class YearPlan(LotStories stories, OpenEnd openEnd, Catalogue catalogue, History history, DemonstrationOptions options)
{
    /// <summary>On a workday; three in two weeks.</summary>
    private const double LotsADay = 0.30;
    private const int FewestLots = 16;

    /// <summary>The mill's programme, over and over: calcite most, spice least.</summary>
    private static readonly string[] Programme = ["GC-45", "MS-90", "PS-63", "GC-45", "MS-90", "SB-500", "GC-45", "PS-63"];

    /// <summary>The lots with a story of their own: after which part of the history, of which product.</summary>
    private static readonly (double Part, string Product, Story Story)[] Special =
    [
        (0.05, "MS-90", Story.Abandoned), (0.20, "GC-45", Story.Withdrawn), (0.33, "PS-63", Story.Returned), (0.44, "MS-90", Story.LaboratoryCause), (0.58, "GC-45", Story.Confirmed), (0.70, "MS-90", Story.Concession), (0.80, "GC-45", Story.BeyondAlert),
    ];

    private readonly Chance chance = new(options.Seed);

    /// <summary>Puts everything on the timeline.</summary>
    public void Write(Timeline timeline, CancellationToken cancellation)
    {
        timeline.Add(history.AtPart(0.40), () => catalogue.RaiseSugarTimeAsync(cancellation));
        timeline.Add(history.AtPart(0.45), () => catalogue.NarrowCalciteAsync(cancellation));
        timeline.Add(history.AtPart(0.93), () => catalogue.DraftTheNextAsync(cancellation));
        var arrivals = Arrivals();
        var special = Assign(arrivals.Count);
        for (var index = 0; index < arrivals.Count; index++)
        {
            var (lot, at) = (index, arrivals[index]);
            var story = special.GetValueOrDefault(lot, Story.Usual);
            timeline.Add(at, () => stories.TellAsync(timeline, ProductOf(lot), story, cancellation));
        }

        openEnd.Write(timeline, cancellation);
    }

    private static ProductLine ProductOf(int lot) => ProductLine.Of(Programme[lot % Programme.Length]);

    private static Dictionary<int, Story> Assign(int lots)
    {
        var assigned = new Dictionary<int, Story>();
        foreach (var (part, product, story) in Special)
        {
            assigned.Add(Enumerable.Range((int)(part * lots), lots).First(lot => Programme[lot % Programme.Length] == product && !assigned.ContainsKey(lot)), story);
        }

        return assigned;
    }

    private List<DateTimeOffset> Arrivals()
    {
        var last = WorkingTime.Before(WorkingTime.DayOf(history.End), 4);
        var days = new List<DateOnly>();
        for (var day = WorkingTime.DayOf(history.Start).AddDays(2); day <= last; day = day.AddDays(1))
        {
            if (WorkingTime.IsWorkday(day))
            {
                days.Add(day);
            }
        }

        var (rate, due) = (Math.Max(LotsADay, (double)FewestLots / days.Count), 0.999);
        var arrivals = new List<DateTimeOffset>();
        foreach (var day in days)
        {
            for (due += rate * chance.Between(0.6, 1.4); due >= 1; due--)
            {
                arrivals.Add(WorkingTime.At(day, chance.Between(8.3, 13.5)));
            }
        }

        return [.. arrivals.Order()];
    }
}
