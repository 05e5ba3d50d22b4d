using System.Collections.Immutable;
using Microsoft.EntityFrameworkCore;
using ParticleLims.Analysis.Quantities;
using ParticleLims.Analysis.Sieves.Tares;
using ParticleLims.Laboratory.Equipment;
using ParticleLims.Laboratory.Record;
using ParticleLims.Laboratory.Sieves;

namespace ParticleLims.Laboratory.Runs;

/// <summary>Holds a new empty weighing of a sieve against all those before it, and keeps on the sieve what it says until somebody has looked.</summary>
internal sealed class TareWatching
{
    private readonly TestSieve sieve;
    private readonly List<Mass> before;

    private TareWatching(TestSieve sieve, List<Mass> before) => (this.sieve, this.before) = (sieve, before);

    /// <summary>What the sieve weighs empty by its first weighings; null while there are fewer than three.</summary>
    public Mass? Usual => Runs.TareHistory.Usual(before);

    /// <summary>The earlier weighings of the sieve at a position of the run, without the one that is taken again.</summary>
    public static async Task<TareWatching> OfAsync(DeedScope scope, Run run, int position, Weighing? mistaken, CancellationToken cancellation)
    {
        var id = run.Sieves.Single(one => one.Position == position).SieveId;
        var watched = await scope.FindAsync<TestSieve>(id, "sieve", cancellation);
        var points = await Runs.TareHistory.Points(scope.Data, id, watched.TareFrom).OrderBy(point => point.At).ToListAsync(cancellation);
        if (mistaken is not null)
        {
            // What the mistaken weighing said is withdrawn with it.
            points.RemoveAll(point => point.At == mistaken.At && point.RunNumber == run.Number);
            (watched.TareSignal, watched.TareSignalAt) = watched.TareSignalAt == mistaken.At ? (null, null) : (watched.TareSignal, watched.TareSignalAt);
        }

        return new TareWatching(watched, points.ConvertAll(point => point.Mass));
    }

    /// <summary>Takes the new weighing in; a change that the scatter does not explain asks for an inspection before the next run.</summary>
    public void See(DeedScope scope, Mass mass)
    {
        if (Last([.. before, mass], sieve.TareScatter) is not { } finding)
        {
            return;
        }

        (sieve.TareSignal, sieve.TareSignalAt) = (finding.Words, scope.Now);
        EquipmentKeeping.Tell(scope, sieve.Id, "Empty mass asks for an inspection", finding.Words);
    }

    private static TareFinding? Last(List<Mass> masses, Mass scatter)
    {
        ImmutableArray<TareFinding> findings = Analysis.Sieves.Tares.TareHistory.Findings(masses, scatter);
        return findings is [.., var last] && last.Index == masses.Count - 1 ? last : null;
    }
}
