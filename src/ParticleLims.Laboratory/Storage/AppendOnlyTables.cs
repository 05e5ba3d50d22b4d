namespace ParticleLims.Laboratory.Storage;

/// <summary>Tables whose rows are written once. Triggers on both databases refuse UPDATE and DELETE, however they come.</summary>
public static class AppendOnlyTables
{
    /// <summary>Table name and its key column.</summary>
    public static IReadOnlyList<(string Table, string Key)> All { get; } =
    [
        ("record_events", "sequence"),
        ("signatures", "id"),
        ("weighings", "id"),
        ("evaluations", "id"),
        ("dispositions", "id"),
        ("reviews", "id"),
        ("certificate_files", "certificate_id"),
        ("equipment_events", "id"),
        ("balance_checks", "id"),
    ];
}
