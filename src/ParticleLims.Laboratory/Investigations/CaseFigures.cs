using Microsoft.EntityFrameworkCore;
using ParticleLims.Laboratory.Record;
using ParticleLims.Laboratory.Runs;
using ParticleLims.Laboratory.Settings;
using ParticleLims.Laboratory.Storage;

namespace ParticleLims.Laboratory.Investigations;

/// <summary>How often something had to be investigated among so many runs.</summary>
/// <param name="Name">The product, the technician or the sieve.</param>
/// <param name="Runs">Runs that were submitted in that time; retests are not counted.</param>
/// <param name="OutOfSpecification">Investigations of values out of specification.</param>
/// <param name="Apart">Investigations of determinations too far apart for a result.</param>
/// <param name="LaboratoryCauses">How many of these two found a cause in the laboratory.</param>
/// <param name="OutOfTrend">Investigations of values out of trend.</param>
public sealed record CaseShare(string Name, int Runs, int OutOfSpecification, int Apart, int LaboratoryCauses, int OutOfTrend);

/// <summary>The figures of all investigations opened in a time: they show a laboratory that blames itself too often as well as one that never does.</summary>
public sealed record CaseFigures
{
    /// <summary>All runs, and the investigations among them.</summary>
    public required CaseShare All { get; init; }

    /// <summary>Runs that were invalidated.</summary>
    public required int Invalidated { get; init; }

    /// <summary>Obvious errors that open no case by themselves: runs that were begun in that time and given up, and weighings that were taken again.</summary>
    public required int Abandoned { get; init; }
    public required int WeighedAgain { get; init; }

    /// <summary>Investigations that are open, and how many of them should have been closed.</summary>
    public required int Open { get; init; }
    public required int Overdue { get; init; }

    /// <summary>The age in days of the oldest that is open; null where none is.</summary>
    public required int? OldestOpenDays { get; init; }

    /// <summary>Half of those of values out of specification and of determinations too far apart were closed within so many days; null where none was.</summary>
    public required double? MedianDaysToClose { get; init; }
    public required IReadOnlyList<(InvestigationConclusion Conclusion, int Count)> Conclusions { get; init; }
    public required IReadOnlyList<(LaboratoryCauseKind Cause, int Count)> Causes { get; init; }
    public required IReadOnlyList<CaseShare> Products { get; init; }
    public required IReadOnlyList<CaseShare> Technicians { get; init; }
    public required IReadOnlyList<CaseShare> Sieves { get; init; }
}

/// <summary>Counts investigations.</summary>
public sealed class CaseFiguresReading(ReadPath reading, TimeProvider clock)
{
    /// <summary>The figures of what happened from an instant on until before another.</summary>
    /// <exception cref="RefusedException">The end does not lie behind the beginning.</exception>
    public Task<CaseFigures> OfAsync(Actor actor, DateTimeOffset from, DateTimeOffset until, CancellationToken cancellation) =>
        reading.ReadAsync(actor, Permission.Investigate, async (data, _, token) =>
        {
            var settings = await SettingsKeeping.OfAsync(data, token);
            return from < until
                ? await OfAsync(data, from.ToUniversalTime(), until.ToUniversalTime(), settings.LocalDay(clock.GetUtcNow()), settings, token)
                : throw new RefusedException("days", "The last day lies before the first.", "last");
        }, cancellation);

    private static async Task<CaseFigures> OfAsync(LaboratoryContext data, DateTimeOffset from, DateTimeOffset until, DateOnly today, LaboratorySettings settings, CancellationToken cancellation)
    {
        var runs = await data.Runs.Where(run => run.RetestPlanId == null && run.SubmittedAt >= from && run.SubmittedAt < until)
            .Select(run => new CountedRun(run.Id, run.ProductCode, run.SubmittedByName ?? "–", run.State == RunState.Invalidated)).ToListAsync(cancellation);
        var cases = await data.Investigations.Where(one => one.OpenedAt >= from && one.OpenedAt < until).ToListAsync(cancellation);
        var shown = cases.ConvertAll(one => one.RunId);
        var known = runs.Select(run => run.Id).ToHashSet();
        var of = await data.Runs.Where(run => shown.Contains(run.Id)).Select(run => new CountedRun(run.Id, run.ProductCode, run.SubmittedByName ?? run.StartedByName ?? "–", false)).ToDictionaryAsync(run => run.Id, cancellation);
        var sieves = await data.Runs.Where(run => run.RetestPlanId == null && run.SubmittedAt >= from && run.SubmittedAt < until).SelectMany(run => run.Sieves).Select(sieve => new { sieve.RunId, sieve.SieveSerial }).ToListAsync(cancellation);
        var bySieve = sieves.GroupBy(sieve => sieve.SieveSerial).Select(group => Share(group.Key, [.. group.Select(one => one.RunId).Distinct()], cases)).ToList();
        var open = cases.FindAll(one => one.State != InvestigationState.Closed);
        return new CaseFigures
        {
            All = Share("all", [.. known.Union(shown)], cases) with { Runs = runs.Count },
            Invalidated = runs.Count(run => run.Invalidated),
            Abandoned = await data.Runs.CountAsync(run => run.State == RunState.Abandoned && run.StartedAt >= from && run.StartedAt < until, cancellation),
            WeighedAgain = await data.Set<Weighing>().CountAsync(weighing => weighing.SupersedesId != null && weighing.At >= from && weighing.At < until, cancellation),
            Open = open.Count, Overdue = open.Count(one => one.IsOverdue(today)),
            OldestOpenDays = open.Count == 0 ? null : today.DayNumber - settings.LocalDay(open.Min(one => one.OpenedAt)).DayNumber,
            MedianDaysToClose = MedianOf([.. cases.Where(one => one.IsFull && one.ClosedAt is not null).Select(one => (one.ClosedAt!.Value - one.OpenedAt).TotalDays)]),
            Conclusions = [.. cases.Where(one => one.Conclusion is not null).GroupBy(one => one.Conclusion!.Value).Select(group => (group.Key, group.Count())).OrderByDescending(pair => pair.Item2).ThenBy(pair => pair.Key)],
            Causes = [.. cases.Where(one => one.Cause is not null).GroupBy(one => one.Cause!.Value).Select(group => (group.Key, group.Count())).OrderByDescending(pair => pair.Item2).ThenBy(pair => pair.Key)],
            Products = Shares(runs, cases, of, run => run.Product),
            Technicians = Shares(runs, cases, of, run => run.Technician),
            Sieves = Ordered(bySieve.Where(share => share.OutOfSpecification + share.Apart + share.OutOfTrend > 0)),
        };
    }

    private static IReadOnlyList<CaseShare> Shares(List<CountedRun> runs, List<Investigation> cases, Dictionary<Guid, CountedRun> of, Func<CountedRun, string> name)
    {
        var names = runs.Select(name).Concat(of.Values.Select(name)).Distinct();
        return Ordered(names.Select(one => Share(one, [.. of.Values.Where(run => name(run) == one).Select(run => run.Id)], cases) with { Runs = runs.Count(run => name(run) == one) }));
    }

    private static IReadOnlyList<CaseShare> Ordered(IEnumerable<CaseShare> shares) =>
        [.. shares.OrderByDescending(share => share.OutOfSpecification).ThenByDescending(share => share.Apart).ThenByDescending(share => share.OutOfTrend).ThenBy(share => share.Name, StringComparer.Ordinal)];

    private static CaseShare Share(string name, HashSet<Guid> runs, List<Investigation> cases)
    {
        var mine = cases.FindAll(one => runs.Contains(one.RunId));
        int Of(InvestigationKind kind) => mine.Count(one => one.Kind == kind);
        return new CaseShare(name, runs.Count, Of(InvestigationKind.OutOfSpecification), Of(InvestigationKind.DeterminationsApart), mine.Count(one => one.Conclusion == InvestigationConclusion.LaboratoryCause), Of(InvestigationKind.OutOfTrend));
    }

    private static double? MedianOf(double[] days)
    {
        Array.Sort(days);
        return days.Length == 0 ? null : (days[(days.Length - 1) / 2] + days[days.Length / 2]) / 2;
    }

    private sealed record CountedRun(Guid Id, string Product, string Technician, bool Invalidated);
}
