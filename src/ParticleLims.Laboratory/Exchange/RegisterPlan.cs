using System.Security.Cryptography;
using System.Text.Json;
using ParticleLims.Laboratory.Record;

namespace ParticleLims.Laboratory.Exchange;

/// <summary>What an import would do with a row.</summary>
public enum RowOutcome
{
    /// <summary>The item is added.</summary>
    Add,

    /// <summary>An item of this kind and serial number is in the register; it stays as it is.</summary>
    AlreadyThere,

    /// <summary>The other register had scrapped it.</summary>
    LeftOut,

    /// <summary>It cannot be added; nothing of the file can.</summary>
    Wrong,
}

/// <summary>A row with what would become of it.</summary>
public sealed record PlannedRow(RowPlace Place, RegisterKind Kind, string Serial, RowOutcome Outcome, IReadOnlyList<RowFinding> Findings);

/// <summary>What an import would do: the dry run. Nothing was written.</summary>
/// <param name="Rows">The file's rows, in their order.</param>
/// <param name="Digest">Stands for the file and for what would become of each row; the import is given it and refuses when anything has changed.</param>
public sealed record RegisterPlan(IReadOnlyList<PlannedRow> Rows, string Digest)
{
    /// <summary>How many rows have that outcome.</summary>
    public int Count(RowOutcome outcome) => Rows.Count(row => row.Outcome == outcome);

    /// <summary>Whether the file can be imported as it is.</summary>
    public bool CanBeImported => Count(RowOutcome.Wrong) == 0 && Count(RowOutcome.Add) > 0;

    internal static RegisterPlan Of(RegisterFile file, IReadOnlyList<PlannedRow> rows) =>
        new(rows, Convert.ToHexStringLower(SHA256.HashData(JsonSerializer.SerializeToUtf8Bytes(new { file.Sha256, rows }))));

    /// <summary>Refuses a plan that is not the one that was looked at, or that holds what is wrong.</summary>
    internal void Require(string digest)
    {
        if (Rows.FirstOrDefault(row => row.Outcome == RowOutcome.Wrong) is { } wrong)
        {
            throw new RefusedException("import-wrong", $"Nothing was imported. {char.ToUpperInvariant(wrong.Place.Words[0])}{wrong.Place.Words[1..]}: {wrong.Findings[0].Words} Put the file right and choose it again.");
        }

        if (digest != Digest)
        {
            throw new RefusedException("changed-meanwhile", "Nothing was imported: the register or the file is not what the dry run saw. Choose the file again and look at the new dry run.");
        }

        if (Count(RowOutcome.Add) == 0)
        {
            throw new RefusedException("import-nothing", "Nothing of the file is new; the register stays as it is.");
        }
    }
}
