using System.Globalization;
using ParticleLims.Analysis.Sieves;
using ParticleLims.Laboratory.Equipment;
using ParticleLims.Laboratory.Record;
using ParticleLims.Laboratory.Settings;
using ParticleLims.Laboratory.Sieves;
using ParticleLims.Laboratory.Storage;

namespace ParticleLims.Laboratory.Exchange;

/// <summary>Holds a register's file against the laboratory's register by the same rules by which an item is added by hand. The dry run and the import both ask it.</summary>
internal sealed class RegisterPlanning(RegisterKnown known, Func<string, ToleranceTable> tables, DateOnly today)
{
    private readonly Dictionary<(RegisterKind Kind, string Serial), RowPlace> seen = [];

    /// <summary>What an import of the file would do at that instant.</summary>
    /// <exception cref="RefusedException">The file has no rows, or too many.</exception>
    public static async Task<RegisterPlan> OfAsync(LaboratoryContext data, RegisterFile file, DateTimeOffset now, CancellationToken cancellation)
    {
        if (file.Rows.Count is 0 or > RegisterFile.MostRows)
        {
            throw new RefusedException("import-rows", file.Rows.Count == 0
                ? "The file has names of columns and no row below them. Write a row for each item."
                : string.Create(CultureInfo.InvariantCulture, $"The file has {file.Rows.Count} rows; one import takes {RegisterFile.MostRows}. Split it."));
        }

        var planning = new RegisterPlanning(await RegisterKnown.ReadAsync(data, cancellation), await ToleranceKeeping.TablesAsync(data, cancellation), await TodayAsync(data, now, cancellation));
        return RegisterPlan.Of(file, [.. file.Rows.Select(planning.Plan)]);
    }

    /// <summary>The laboratory's day.</summary>
    public static async Task<DateOnly> TodayAsync(LaboratoryContext data, DateTimeOffset now, CancellationToken cancellation) => (await SettingsKeeping.OfAsync(data, cancellation)).LocalDay(now);

    private PlannedRow Plan(RegisterRow row)
    {
        var (outcome, findings) = Look(row);
        return new PlannedRow(row.Place, row.Kind, row.Serial, outcome, findings);
    }

    private (RowOutcome Outcome, IReadOnlyList<RowFinding> Findings) Look(RegisterRow row)
    {
        if (row.Serial.Length > 0 && !seen.TryAdd((row.Kind, row.Serial), row.Place))
        {
            return (RowOutcome.Wrong, [new RowFinding("serial", $"“{row.Serial}” stands in {seen[(row.Kind, row.Serial)].Words} as well. Keep one of the two, or correct the number."), .. row is UnreadableRow doubled ? doubled.Findings : []]);
        }

        return row switch
        {
            UnreadableRow unreadable => (RowOutcome.Wrong, unreadable.Findings),
            _ when known.Has(row, out var differences) => (RowOutcome.AlreadyThere, differences),
            { Before.State: EquipmentState.Scrapped } => (RowOutcome.LeftOut, []),
            _ => Judge(row),
        };
    }

    private (RowOutcome Outcome, IReadOnlyList<RowFinding> Findings) Judge(RegisterRow row)
    {
        var wrong = new List<RowFinding>();
        var notes = new List<RowFinding>();
        foreach (var rule in Rules(row, notes))
        {
            try
            {
                rule();
            }
            catch (RefusedException refusal)
            {
                wrong.Add(new RowFinding(refusal.Member, refusal.Message));
            }
        }

        if (row.Before.State == EquipmentState.OutOfService)
        {
            notes.Add(new RowFinding("state", "It comes in out of service; whoever keeps the equipment puts it back with evidence."));
        }

        return wrong.Count > 0 ? (RowOutcome.Wrong, wrong) : (RowOutcome.Add, notes);
    }

    private IEnumerable<Action> Rules(RegisterRow row, List<RowFinding> notes) => row switch
    {
        SieveRow sieve => [sieve.Card.Check, () => sieve.Plan?.Check(), () => Judge(sieve, notes)],
        BalanceRow balance => [balance.Card.Check, () => RequireFormat(balance.Card.ReadingFormat)],
        WeightRow weight => [weight.Card.Check, () => Judge(weight, notes)],
        UnitRow unit => [unit.Card.Check],
        MaterialRow material => [material.Card.Check, () => Judge(material, notes)],
        _ => throw new ArgumentOutOfRangeException(nameof(row), row, "Not a row of a register."),
    };

    private void Judge(SieveRow row, List<RowFinding> notes)
    {
        if (row.Measured?.Judge(row.Card.Aperture, tables(row.Card.Standard), today).Conforms == false)
        {
            notes.Add(new RowFinding("mean", "The laboratory's own measurement is out of tolerance: it comes in out of service."));
        }
    }

    private void Judge(MaterialRow row, List<RowFinding> notes)
    {
        if (row.Card.ExpiredWords(today) is { } expired)
        {
            notes.Add(new RowFinding("goodUntil", expired));
        }
    }

    private void Judge(WeightRow row, List<RowFinding> notes)
    {
        if (row.Certificate is not { } certificate)
        {
            return;
        }

        if (row.HasExpired(today))
        {
            notes.Add(new RowFinding("dueOn", $"The certificate {certificate.Number.Trim()} counted until {certificate.DueOn:yyyy-MM-dd} and is not taken over: the weight waits for its next one."));
        }
        else
        {
            certificate.Check(row.Card, today);
        }
    }

    private void RequireFormat(string format)
    {
        if (!known.Formats.Contains(format, StringComparer.Ordinal))
        {
            throw new RefusedException("format-unknown", $"There is no reading format “{format}”. Known are {string.Join(", ", known.Formats.Select(name => $"“{name}”"))}; others are kept under Equipment, Reading formats.", "readingFormat");
        }
    }
}
