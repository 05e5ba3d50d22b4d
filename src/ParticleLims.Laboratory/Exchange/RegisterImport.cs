using System.Globalization;
using ParticleLims.Analysis.Sieves;
using ParticleLims.Laboratory.Equipment;
using ParticleLims.Laboratory.Record;
using ParticleLims.Laboratory.Sieves;

namespace ParticleLims.Laboratory.Exchange;

/// <summary>What an import did.</summary>
/// <param name="Added">How many items were added.</param>
/// <param name="AlreadyThere">How many were there and stayed as they were.</param>
/// <param name="LeftOut">How many were scrapped in the other register.</param>
public sealed record RegisterImported(int Added, int AlreadyThere, int LeftOut);

/// <summary>Takes an existing register over from a file: first a dry run, then all of it or nothing, as one deed.</summary>
public sealed class RegisterImport(WritePath writing, ReadPath reading, TimeProvider clock)
{
    private const string RegisteredWords = "Registered by import";
    private static readonly DeedKind ImportDeed = new("equipment.import", "Equipment register imported", Permission.KeepEquipment);

    /// <summary>The dry run: what an import of this file would do with each row. Nothing is written.</summary>
    public Task<RegisterPlan> PlanAsync(Actor actor, RegisterFile file, CancellationToken cancellation) =>
        reading.ReadAsync(actor, Permission.KeepEquipment, (data, _, token) => RegisterPlanning.OfAsync(data, file, clock.GetUtcNow(), token), cancellation);

    /// <summary>
    /// Adds every new item of the file. The items are judged by the rules of one that is added by hand: a sieve, a balance and a sieving unit await their commissioning, a weight comes into service by its certificate.
    /// </summary>
    /// <param name="actor">Who imports.</param>
    /// <param name="file">The file of the dry run.</param>
    /// <param name="digest">What the dry run answered.</param>
    /// <param name="key">The idempotency key.</param>
    /// <param name="cancellation">Ends it.</param>
    /// <exception cref="RefusedException">A row is wrong, or the register or the file has changed since the dry run. Nothing was written.</exception>
    public Task<RegisterImported> ImportAsync(Actor actor, RegisterFile file, string digest, string? key, CancellationToken cancellation) =>
        writing.CarryOutAsync(new Deed(ImportDeed, actor, key) { Asked = new { file.Sha256, digest } }, async (scope, token) =>
        {
            var plan = await RegisterPlanning.OfAsync(scope.Data, file, scope.Now, token);
            plan.Require(digest);
            var (today, name) = (await RegisterPlanning.TodayAsync(scope.Data, scope.Now, token), Short(file.Name));
            var tables = await ToleranceKeeping.TablesAsync(scope.Data, token);
            foreach (var row in file.Rows.Zip(plan.Rows).Where(pair => pair.Second.Outcome == RowOutcome.Add).Select(pair => pair.First))
            {
                Add(scope, row, tables, today, $"{name}, {row.Place.Words}.{row.Before.Words}");
            }

            var done = new RegisterImported(plan.Count(RowOutcome.Add), plan.Count(RowOutcome.AlreadyThere), plan.Count(RowOutcome.LeftOut));
            scope.About("EquipmentImport", scope.NewId(), string.Create(CultureInfo.InvariantCulture, $"{name}: {done.Added} added, SHA-256 {file.Sha256}"));
            return done;
        }, cancellation);

    private static void Add(DeedScope scope, RegisterRow row, Func<string, ToleranceTable> tables, DateOnly today, string note)
    {
        if (row is MaterialRow material)
        {
            material.Card.Add(scope);
            return;
        }

        IEquipment added = row switch
        {
            SieveRow sieve => Add(scope, sieve, tables(sieve.Card.Standard), today, note),
            BalanceRow balance => balance.Card.Add(scope, RegisteredWords, note),
            WeightRow weight => Add(scope, weight, today, note),
            UnitRow unit => unit.Card.Add(scope, RegisteredWords, note),
            _ => throw new ArgumentOutOfRangeException(nameof(row), row, "Not a row of a register."),
        };
        if (row.Before.State == EquipmentState.OutOfService && added.State != EquipmentState.OutOfService)
        {
            added.Move(EquipmentState.OutOfService, row.Before.Reason.Trim() is { Length: > 0 } reason ? reason : "out of service in the register that was imported", added.State);
        }
    }

    private static Sieves.TestSieve Add(DeedScope scope, SieveRow row, ToleranceTable table, DateOnly today, string note)
    {
        var sieve = row.Card.Add(scope, RegisteredWords, note);
        row.Plan?.PutOn(sieve, scope.Now);
        row.Measured?.Enter(scope, sieve, table, today, "Apertures entered by import");
        return sieve;
    }

    private static Balances.CheckWeight Add(DeedScope scope, WeightRow row, DateOnly today, string note)
    {
        var weight = row.Card.Add(scope, RegisteredWords, note);
        if (!row.HasExpired(today))
        {
            row.Certificate?.Enter(scope, weight, today, "Certificate entered by import");
        }

        return weight;
    }

    private static string Short(string name) => name.Trim() is { Length: > 60 } longer ? longer[..60] + "…" : name.Trim();
}
