using System.Globalization;
using Microsoft.EntityFrameworkCore;
using ParticleLims.Laboratory.Equipment;
using ParticleLims.Laboratory.Record;
using ParticleLims.Laboratory.Settings;
using ParticleLims.Laboratory.Sieves;
using ParticleLims.Laboratory.Storage;

namespace ParticleLims.Laboratory.Runs;

/// <summary>Whether a sieve may be used, computed at the moment of use from its state, its date, its runs, its empty mass and its check with a reference material.</summary>
/// <param name="Unfit">What is wrong, what to do and who may; null when it may be used.</param>
/// <param name="RunsSince">How many runs used it since its last inspection.</param>
/// <param name="Snapshot">What a run keeps of it.</param>
public sealed record SieveFitness(string? Unfit, int RunsSince, string Snapshot)
{
    /// <summary>When it is checked with a reference material again; null where no interval is set.</summary>
    public ReferenceDue? Reference { get; private init; }

    /// <summary>So many runs before its inspection it is announced.</summary>
    public const int RunsAhead = 5;

    /// <summary>The fitness of a sieve on a day.</summary>
    internal static async Task<SieveFitness> OfAsync(LaboratoryContext data, TestSieve sieve, DateOnly today, CancellationToken cancellation)
    {
        var since = sieve.InspectedAt ?? DateTimeOffset.UnixEpoch;
        var runs = await data.Runs.CountAsync(run => run.StartedAt > since && run.Sieves.Any(used => used.SieveId == sieve.Id), cancellation);
        var reference = await ReferenceDue.OfAsync(data, sieve, cancellation);
        var kept = Kept(sieve, runs) + (reference is null ? string.Empty : $"; {reference.Words(today)}");
        return new SieveFitness(sieve.UnfitReason(today) ?? Signal(sieve) ?? Worn(sieve, runs) ?? reference?.Unfit(sieve, today), runs, kept) { Reference = reference };
    }

    /// <summary>"12 of 50 runs since its last inspection"; the warning that few are left comes with it.</summary>
    public static string RunsWords(int runs, int? most)
    {
        var counted = string.Create(CultureInfo.InvariantCulture, $"{runs}{(most is { } limit ? $" of {limit}" : string.Empty)} {(runs == 1 && most is null ? "run" : "runs")} since its last inspection");
        return most - runs is > 0 and <= RunsAhead and { } left ? string.Create(CultureInfo.InvariantCulture, $"{counted}; due after {left} more") : counted;
    }

    /// <summary>The sieves in service whose runs are used up, or nearly, with how many they were used in since their last inspection.</summary>
    internal static async Task<Dictionary<Guid, int>> NearAsync(LaboratoryContext data, CancellationToken cancellation)
    {
        var runs = data.Runs;
        var counted = await data.TestSieves.Where(sieve => sieve.State == EquipmentState.InService && sieve.InspectEveryRuns != null)
            .Select(sieve => new { sieve.Id, sieve.InspectEveryRuns, Runs = runs.Count(run => (sieve.InspectedAt == null || run.StartedAt > sieve.InspectedAt) && run.Sieves.Any(used => used.SieveId == sieve.Id)) }).ToListAsync(cancellation);
        return counted.Where(one => one.InspectEveryRuns - one.Runs <= RunsAhead).ToDictionary(one => one.Id, one => one.Runs);
    }

    private static string? Signal(TestSieve sieve) => sieve.TareSignal is { } signal
        ? $"The {sieve.Label} asks for an inspection: {signal} Take another one, or inspect it by the list; whoever carries out runs may."
        : null;

    private static string? Worn(TestSieve sieve, int runs) => runs >= sieve.InspectEveryRuns
        ? string.Create(CultureInfo.InvariantCulture, $"The {sieve.Label} was used in {runs} runs since its last inspection; it is inspected after {sieve.InspectEveryRuns}. Take another one, or inspect it by the list; whoever carries out runs may.")
        : null;

    private static string Kept(TestSieve sieve, int runs) => string.Create(
        CultureInfo.InvariantCulture, $"{sieve.Standard}; {sieve.State.Words()}; inspected {sieve.InspectedAt?.UtcDateTime:yyyy-MM-dd}, due {sieve.InspectionDueOn:yyyy-MM-dd}; {RunsWords(runs, sieve.InspectEveryRuns)}");
}

/// <summary>Reads whether a sieve may be used now.</summary>
public sealed class SieveFitnessReading(ReadPath reading, TimeProvider clock)
{
    /// <summary>The fitness of a sieve now; null when there is none.</summary>
    public Task<SieveFitness?> FindAsync(Actor actor, Guid sieveId, CancellationToken cancellation) =>
        reading.ReadAsync(actor, Permission.SeeLaboratory, async (data, _, token) =>
            await data.TestSieves.FirstOrDefaultAsync(sieve => sieve.Id == sieveId, token) is { } sieve
                ? await SieveFitness.OfAsync(data, sieve, (await SettingsKeeping.OfAsync(data, token)).LocalDay(clock.GetUtcNow()), token)
                : null, cancellation);

    /// <summary>The sieves in service that are inspected after a number of runs of which at most <see cref="SieveFitness.RunsAhead"/> are left, with the runs since their last inspection.</summary>
    public Task<Dictionary<Guid, int>> NearAsync(Actor actor, CancellationToken cancellation) =>
        reading.ReadAsync(actor, Permission.SeeLaboratory, (data, _, token) => SieveFitness.NearAsync(data, token), cancellation);

    /// <summary>The sieves in service whose check with a reference material is overdue or near.</summary>
    public Task<Dictionary<Guid, ReferenceDue>> ReferencesNearAsync(Actor actor, CancellationToken cancellation) =>
        reading.ReadAsync(actor, Permission.SeeLaboratory, async (data, _, token) =>
            await ReferenceDue.NearAsync(data, (await SettingsKeeping.OfAsync(data, token)).LocalDay(clock.GetUtcNow()), token), cancellation);
}
