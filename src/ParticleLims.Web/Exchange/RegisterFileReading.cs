using System.Security.Cryptography;
using ParticleLims.Laboratory.Exchange;
using ParticleLims.Laboratory.Record;

namespace ParticleLims.Web.Exchange;

/// <summary>A register as it was read from a file.</summary>
/// <param name="File">Its rows, for the dry run.</param>
/// <param name="Notes">What of the file is passed over.</param>
internal sealed record ReadRegister(RegisterFile File, IReadOnlyList<string> Notes);

/// <summary>Reads a register from a file: one kind of equipment in a CSV file, a sheet for each kind in a workbook.</summary>
internal static class RegisterFileReading
{
    /// <summary>Reads it. What is wrong with a row stays with the row; what is wrong with the table is refused.</summary>
    /// <exception cref="RefusedException">The table is none of a register: says what, and what to do.</exception>
    public static ReadRegister Read(string name, byte[] bytes)
    {
        ArgumentNullException.ThrowIfNull(bytes);
        var (rows, notes, problems) = (new List<RegisterRow>(), new List<string>(), new List<string>());
        var tables = TableFile.Read(bytes);
        foreach (var table in tables)
        {
            if (KindOf(table) is { } sheet)
            {
                var read = new RegisterSheetReading(sheet, table);
                rows.AddRange(read.Rows);
                notes.AddRange(read.Notes);
                problems.AddRange(read.Problems);
            }
            else
            {
                notes.Add(table.Name is null ? "The file has no column by which it would be known." : $"The sheet “{table.Name}” is passed over: it has no column of equipment that an import takes.");
            }
        }

        if (problems.Count == 0 && tables.All(table => KindOf(table) is null))
        {
            problems.Add($"The file has no column “{SieveColumns.Aperture.Title}” for test sieves, “{BalanceColumns.Readability.Title}” for balances, “{CheckWeightColumns.Nominal.Title}” for check weights, “{SievingUnitColumns.Kind.Title}” for sieving units or “{ReferenceMaterialColumns.Batch.Title}” for reference materials. Take a template, and keep its first row.");
        }

        return problems.Count == 0
            ? new ReadRegister(new RegisterFile(name, Convert.ToHexStringLower(SHA256.HashData(bytes)), rows), notes)
            : throw TableFile.Refuse("table-columns", string.Join('\n', problems));
    }

    private static RegisterSheet? KindOf(TableSheet table)
    {
        var titles = table.Rows.Count == 0 ? [] : table.Rows[0].Cells.Select(cell => ExchangeColumn.Plain(cell.Text)).ToHashSet(StringComparer.Ordinal);
        return RegisterSheet.All.FirstOrDefault(sheet => table.Name is { } name && ExchangeColumn.Plain(name) == ExchangeColumn.Plain(sheet.Title))
            ?? RegisterSheet.All.FirstOrDefault(sheet => sheet.Telling.Any(column => titles.Contains(ExchangeColumn.Plain(column.Title))))
            ?? RegisterSheet.All.FirstOrDefault(sheet => sheet.Telling.Any(column => titles.Any(title => title.Split(" (")[0] == ExchangeColumn.Plain(column.Name))));
    }
}
