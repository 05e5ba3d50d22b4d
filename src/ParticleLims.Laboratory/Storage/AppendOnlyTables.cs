namespace ParticleLims.Laboratory.Storage;

/// <summary>Tables whose rows are written once. Triggers on both databases refuse UPDATE and DELETE, however they come; of a table in <see cref="Corrected"/> they refuse the UPDATE of what is no slip of the pen.</summary>
public static class AppendOnlyTables
{
    /// <summary>Table name and its key columns.</summary>
    public static IReadOnlyList<(string Table, string Key)> All => [.. First, .. Second, .. Third, .. Fourth, .. Fifth, .. Sixth, .. Seventh, .. Eighth, .. Ninth, .. Tenth, .. Eleventh, .. Twelfth, .. Thirteenth, .. Fourteenth, .. Logos];

    /// <summary>Tables whose rows can be corrected, and the columns that stay all the same. Since samples are corrected; a later one gets a list of its own.</summary>
    public static IReadOnlyList<(string Table, string Fixed)> Corrected { get; } =
        [("samples", "id, code, lot_id, method_version_id, specification_version_id, received_at, received_by_id, received_by_name, replaces_sample_id, taken_again_because")];

    /// <summary>Since the first migration.</summary>
    public static IReadOnlyList<(string Table, string Key)> First { get; } =
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

    /// <summary>Since the second migration.</summary>
    public static IReadOnlyList<(string Table, string Key)> Second { get; } =
    [
        ("samples", "id"),
        ("run_sieves", "run_id, position"),
        ("method_sieves", "method_version_id, position"),
        ("limits", "specification_version_id, position"),
        ("investigation_notes", "id"),
        ("concession_proposals", "id"),
    ];

    /// <summary>Since labels are scanned at the bench.</summary>
    public static IReadOnlyList<(string Table, string Key)> Third { get; } = [("sieve_scans", "id")];

    /// <summary>Since cautions are acknowledged.</summary>
    public static IReadOnlyList<(string Table, string Key)> Fourth { get; } = [("caution_acknowledgements", "id")];

    /// <summary>Since sieves with an unusual empty mass are looked at.</summary>
    public static IReadOnlyList<(string Table, string Key)> Fifth { get; } = [("sieve_looks", "id")];

    /// <summary>Since equipment is inspected, measured and checked, and a case opens when something failed.</summary>
    public static IReadOnlyList<(string Table, string Key)> Sixth { get; } =
    [
        ("equipment_documents", "id"),
        ("equipment_files", "document_id"),
        ("sieve_inspections", "id"),
        ("sieve_cleanings", "id"),
        ("fitness_overrides", "id"),
        ("touched_runs", "failure_id, run_id"),
        ("check_weight_calibrations", "id"),
        ("repeatability_tests", "id"),
        ("aperture_measurements", "id"),
        ("reference_materials", "id"),
        ("reference_checks", "id"),
    ];

    /// <summary>Since sieving units are checked, and tables of permissible deviations entered.</summary>
    public static IReadOnlyList<(string Table, string Key)> Seventh { get; } = [("unit_checks", "id"), ("tolerance_editions", "id")];

    /// <summary>Since messages leave the machine.</summary>
    public static IReadOnlyList<(string Table, string Key)> Eighth { get; } = [("outgoing_attachments", "message_id, position"), ("outgoing_attempts", "id")];

    /// <summary>Since people are authorised for methods.</summary>
    public static IReadOnlyList<(string Table, string Key)> Ninth { get; } = [("run_operators", "run_id, person_id"), ("authorisation_overrides", "id")];

    /// <summary>Since the signing policy is accepted, and identities are verified.</summary>
    public static IReadOnlyList<(string Table, string Key)> Eleventh { get; } = [("signing_acceptances", "id"), ("signing_policy_additions", "number"), ("identity_checks", "id")];

    /// <summary>Since heads of the record leave the machine and access is reviewed.</summary>
    public static IReadOnlyList<(string Table, string Key)> Tenth { get; } = [("head_leavings", "id"), ("access_reviews", "id")];

    /// <summary>Since investigations go through points, hypotheses and retests, and lots are opened again.</summary>
    public static IReadOnlyList<(string Table, string Key)> Twelfth { get; } =
    [
        ("investigation_answers", "id"),
        ("associated_lots", "id"),
        ("hypothesis_measurements", "id"),
        ("reopening_proposals", "id"),
    ];

    /// <summary>Since a sample is compared with its sampling plan.</summary>
    public static IReadOnlyList<(string Table, string Key)> Thirteenth { get; } = [("sampling_acceptances", "id")];

    /// <summary>Since a certificate can speak of several samples.</summary>
    public static IReadOnlyList<(string Table, string Key)> Fourteenth { get; } = [("certificate_further_samples", "id")];

    /// <summary>Since certificates have templates.</summary>
    public static IReadOnlyList<(string Table, string Key)> Logos { get; } = [("certificate_logos", "sha256")];
}
