using System.Globalization;
using ParticleLims.Laboratory.Balances;
using ParticleLims.Laboratory.Equipment;
using ParticleLims.Laboratory.Sieves;
using ParticleLims.Laboratory.SievingUnits;

namespace ParticleLims.Laboratory.Exchange;

/// <summary>The kinds of equipment that a register's file can bring.</summary>
public enum RegisterKind
{
    TestSieves,
    Balances,
    CheckWeights,
    SievingUnits,
    ReferenceMaterials,
}

/// <summary>Where a row stands in its file.</summary>
/// <param name="Sheet">The sheet's name; null where the file has no sheets.</param>
/// <param name="Row">The row, counted from 1 with the row of names, as a spreadsheet counts.</param>
public sealed record RowPlace(string? Sheet, int Row)
{
    /// <summary>For people: "row 12", "Balances, row 3".</summary>
    public string Words => string.Create(CultureInfo.InvariantCulture, $"{(Sheet is null ? string.Empty : $"{Sheet}, ")}row {Row}");
}

/// <summary>What the other register said of an item's life. It is told in the item's history; it puts nothing into service.</summary>
/// <param name="State">Its state there; null where it said none.</param>
/// <param name="Reason">Why it was out of service.</param>
/// <param name="InspectedOn">When it was last inspected or calibrated.</param>
/// <param name="DueOn">When that was due again.</param>
public sealed record EarlierLife(EquipmentState? State = null, string Reason = "", DateOnly? InspectedOn = null, DateOnly? DueOn = null)
{
    /// <summary>As a sentence; empty where nothing was said.</summary>
    public string Words
    {
        get
        {
            string?[] parts =
            [
                State is { } state ? $"it was {state.Words()}{(Reason.Trim().Length > 0 ? $" ({Reason.Trim()})" : null)}" : null,
                InspectedOn is { } inspected ? $"last inspected or calibrated {inspected.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture)}" : null,
                DueOn is { } due ? $"due {due.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture)}" : null,
            ];
            return string.Join(", ", parts.OfType<string>()) is { Length: > 0 } said ? $" There: {said}." : string.Empty;
        }
    }
}

/// <summary>Something about a row that its reader should know.</summary>
/// <param name="Member">The input it is about, by the name that the laboratory's refusals use; null where it is about the row.</param>
/// <param name="Words">What it is, and what to do.</param>
public sealed record RowFinding(string? Member, string Words);

/// <summary>A row of a register's file.</summary>
/// <param name="Place">Where it stands.</param>
/// <param name="Kind">What it is a row of.</param>
/// <param name="Serial">The serial number; empty where none could be read.</param>
/// <param name="Before">What the other register said of its life.</param>
public abstract record RegisterRow(RowPlace Place, RegisterKind Kind, string Serial, EarlierLife Before);

/// <summary>A row that could not be read.</summary>
public sealed record UnreadableRow(RowPlace Place, RegisterKind Kind, string Serial, IReadOnlyList<RowFinding> Findings) : RegisterRow(Place, Kind, Serial.Trim(), new EarlierLife());

/// <summary>A test sieve, with its own plan of care and its maker's measurement where the file has them.</summary>
public sealed record SieveRow(RowPlace Place, SieveCard Card, SieveCarePlan? Plan, ApertureCard? Measured, EarlierLife Before) : RegisterRow(Place, RegisterKind.TestSieves, Card.Serial.Trim(), Before);

/// <summary>A balance.</summary>
public sealed record BalanceRow(RowPlace Place, BalanceCard Card, EarlierLife Before) : RegisterRow(Place, RegisterKind.Balances, Card.Serial.Trim(), Before);

/// <summary>A check weight, with its certificate where the file has one.</summary>
public sealed record WeightRow(RowPlace Place, CheckWeightCard Card, WeightCertificate? Certificate, EarlierLife Before) : RegisterRow(Place, RegisterKind.CheckWeights, Card.Serial.Trim(), Before)
{
    /// <summary>Whether its certificate no longer counts on that day.</summary>
    internal bool HasExpired(DateOnly today) => Certificate?.DueOn < today;
}

/// <summary>A sieving unit.</summary>
public sealed record UnitRow(RowPlace Place, SievingUnitCard Card, EarlierLife Before) : RegisterRow(Place, RegisterKind.SievingUnits, Card.Serial.Trim(), Before);

/// <summary>A reference material with its certificate's curve; its name and batch stand for a serial number.</summary>
public sealed record MaterialRow(RowPlace Place, MaterialCard Card) : RegisterRow(Place, RegisterKind.ReferenceMaterials, Card.Label, new EarlierLife());

/// <summary>A register as a file gave it.</summary>
/// <param name="Name">The file's name, for people.</param>
/// <param name="Sha256">SHA-256 of its bytes, hexadecimal.</param>
/// <param name="Rows">Its rows, in their order; also those that could not be read.</param>
public sealed record RegisterFile(string Name, string Sha256, IReadOnlyList<RegisterRow> Rows)
{
    /// <summary>The most rows that one import takes.</summary>
    public const int MostRows = 5_000;
}
