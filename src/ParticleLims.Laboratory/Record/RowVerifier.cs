using System.Globalization;
using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.ChangeTracking;
using Microsoft.EntityFrameworkCore.Infrastructure;
using Microsoft.EntityFrameworkCore.Metadata;
using ParticleLims.Laboratory.Storage;

namespace ParticleLims.Laboratory.Record;

/// <summary>What the comparison of the tables with the record found.</summary>
/// <param name="Rows">How many rows were compared.</param>
/// <param name="Values">How many of their values the record vouches for.</param>
/// <param name="Unvouched">Values of which the record says nothing: columns that a newer program added to older rows, and secrets from before fingerprints were kept.</param>
/// <param name="Faults">What is wrong and where, the first hundred; empty when every row is as the record left it.</param>
public sealed record RowVerification(long Rows, long Values, long Unvouched, IReadOnlyList<string> Faults);

/// <summary>
/// Compares every row of every table with what the record says it must hold: a value that was changed, a row that was put in or taken out past the record is found. It tells nothing unless the chain of the
/// record holds (<see cref="RecordVerifier"/>). What the record leaves out is machinery: number series, idempotency keys, versions of rows.
/// </summary>
public static class RowVerifier
{
    private const int AtOnce = 500;
    private const int MostFaults = 100;

    /// <summary>Compares them in one state of the database.</summary>
    public static async Task<RowVerification> VerifyAsync(LaboratoryContext data, CancellationToken cancellation)
    {
        ArgumentNullException.ThrowIfNull(data);
        var record = new RowsByRecord();
        foreach (var (thing, key, values) in RecordedValues.Shipped(data.GetService<IDesignTimeModel>().Model))
        {
            record.Ship(thing, key, values);
        }

        await foreach (var one in data.Events.AsNoTracking().OrderBy(one => one.Sequence).AsAsyncEnumerable().WithCancellation(cancellation))
        {
            record.Follow(one);
        }

        var comparison = new Comparison(record);
        var things = new HashSet<string>(StringComparer.Ordinal);
        foreach (var type in data.Model.GetEntityTypes().Select(type => type.ClrType).Where(IsRecorded).OrderBy(type => type.Name, StringComparer.Ordinal))
        {
            things.Add(type.Name);
            await (Task)CompareMethod.MakeGenericMethod(type).Invoke(null, [data, comparison, cancellation])!;
        }

        foreach (var (thing, key) in record.Left(things))
        {
            comparison.Fault($"{RecordDifference.Words(thing)} {key} is in the record and not in its table: it was taken out.");
        }

        return comparison.Result;
    }

    private static readonly System.Reflection.MethodInfo CompareMethod = typeof(RowVerifier).GetMethod(nameof(CompareAsync), System.Reflection.BindingFlags.NonPublic | System.Reflection.BindingFlags.Static)!;

    private static bool IsRecorded(Type type) => !typeof(IOutsideRecord).IsAssignableFrom(type) && type != typeof(RecordEvent);

    private static async Task CompareAsync<T>(LaboratoryContext data, Comparison comparison, CancellationToken cancellation)
        where T : class
    {
        // Tracked, because the tracker reads every value, wherever the model keeps it; a few hundred at a time.
        var seen = 0;
        data.ChangeTracker.Clear();
        await foreach (var row in data.Set<T>().AsTracking().AsAsyncEnumerable().WithCancellation(cancellation))
        {
            comparison.Compare(data.Entry(row));
            if (++seen % AtOnce == 0)
            {
                data.ChangeTracker.Clear();
            }
        }

        data.ChangeTracker.Clear();
    }

    private sealed class Comparison(RowsByRecord record)
    {
        private readonly List<string> faults = [];
        private long rows;
        private long values;
        private long unvouched;

        public RowVerification Result => new(rows, values, unvouched, faults);

        public void Compare(EntityEntry entry)
        {
            rows++;
            var (thing, key) = (entry.Metadata.ClrType.Name, RecordedValues.KeyOf(entry));
            if (record.Take(thing, key) is not { } recorded)
            {
                Fault($"{RecordDifference.Words(thing)} {key} is in its table and not in the record: it was put in.");
                return;
            }

            foreach (var (name, value) in RecordedValues.Of(entry))
            {
                Compare($"{RecordDifference.Words(thing)} {key}", name, recorded, value);
            }
        }

        public void Fault(string words)
        {
            if (faults.Count < MostFaults)
            {
                faults.Add(words);
            }
        }

        private void Compare(string row, string name, RecordedRow recorded, PropertyEntry value)
        {
            var (says, holds) = (recorded.Values.GetValueOrDefault(name), RecordedValues.Text(value.Metadata, value.CurrentValue));
            if (says == RecordedValues.Hidden || (says is null && holds is not null && !recorded.Values.ContainsKey(name) && recorded.Since < record.LastMigration))
            {
                unvouched++;
                return;
            }

            values++;
            if (says != holds && !AreEqualNumbers(value.CurrentValue, says))
            {
                Fault($"{row}: by the record its {RecordDifference.Words(name).ToLowerInvariant()} is {Quoted(says)}, in the table it is {Quoted(holds)}.");
            }
        }

        // "1.50" in the record comes back as "1.5".
        private static bool AreEqualNumbers(object? value, string? says) =>
            value is decimal number && decimal.TryParse(says, NumberStyles.Number, CultureInfo.InvariantCulture, out var recorded) && decimal.Round(recorded, 6) == number;

        private static string Quoted(string? text) => RecordedValues.Shown(text) is { } shown ? $"“{(shown.Length > 80 ? shown[..80] + "…" : shown)}”" : "nothing";
    }
}
