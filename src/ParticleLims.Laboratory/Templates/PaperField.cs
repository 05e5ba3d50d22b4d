namespace ParticleLims.Laboratory.Templates;

/// <summary>Something that a certificate says. Most of it always stands there; the rest a template may leave out.</summary>
public enum PaperField
{
    Title,
    Number,
    Issuer,
    Customer,
    Product,
    Lot,
    Sample,
    ConditionOnReceipt,
    Dates,
    Specification,
    Method,
    Results,
    SieveTable,
    Basis,
    DecisionRule,
    Conformity,
    Remarks,
    Reservations,
    Signatures,
    Verification,
    Software,
    Manufacturer,
    Identification,
    MadeOn,
    ShelfLife,
    Container,
    Quantity,
    CustomerReference,
    Sampling,
    SingleRuns,
    Curve,
    Conditions,
    Equipment,

    /// <summary>The hash of the record's head in all its 64 digits; else its first 16 are printed, and all of them stand in the machine-readable twin.</summary>
    WholeHeadHash,
}

/// <summary>Which fields always stand on a certificate, and why.</summary>
public static class PaperFields
{
    private static readonly Dictionary<PaperField, string> Needed = new()
    {
        [PaperField.Title] = "ISO/IEC 17025:2017, 7.8.2.1 a", [PaperField.Number] = "7.8.2.1 d", [PaperField.Issuer] = "7.8.2.1 b", [PaperField.Customer] = "7.8.2.1 e", [PaperField.Product] = "7.8.2.1 g", [PaperField.Lot] = "7.8.2.1 g",
        [PaperField.Manufacturer] = "where it is not the laboratory's own works: WHO TRS 957, annex 1, 19.1 f",
        [PaperField.Sample] = "7.8.2.1 g", [PaperField.ConditionOnReceipt] = "7.8.2.1 g", [PaperField.Dates] = "7.8.2.1 h and i", [PaperField.Specification] = "7.8.6.2", [PaperField.Method] = "7.8.2.1 f", [PaperField.Results] = "7.8.2.1 m",
        [PaperField.SieveTable] = "without it nobody can follow the results", [PaperField.Basis] = "without it no percentage has a meaning", [PaperField.DecisionRule] = "7.8.6.2 c", [PaperField.Conformity] = "7.8.6.2",
        [PaperField.Remarks] = "7.8.2.1 n", [PaperField.Reservations] = "7.8.2.1 l", [PaperField.Signatures] = "7.8.2.1 o", [PaperField.Verification] = "by it the reader finds out whether the paper is genuine",
        [PaperField.Software] = "by it the results can be computed again",
    };

    /// <summary>The fields that a template may leave out.</summary>
    public static IReadOnlyList<PaperField> Optional { get; } = [.. Enum.GetValues<PaperField>().Where(field => !Needed.ContainsKey(field))];

    /// <summary>Why the field always stands there; null where a template may leave it out.</summary>
    public static string? WhyNeeded(this PaperField field) => Needed.GetValueOrDefault(field);

    /// <summary>The field as people say it.</summary>
    public static string Words(this PaperField field) => field switch
    {
        PaperField.Title => "Title",
        PaperField.Number => "Number, revision and page",
        PaperField.Issuer => "Name and address of the laboratory",
        PaperField.Customer => "Customer",
        PaperField.Product => "Product",
        PaperField.Lot => "Lot",
        PaperField.Sample => "Sample and its description",
        PaperField.ConditionOnReceipt => "Condition on receipt",
        PaperField.Dates => "Dates of receipt, of testing and of issue",
        PaperField.Specification => "Specification",
        PaperField.Method => "Method",
        PaperField.Results => "Results",
        PaperField.SieveTable => "Sieve table",
        PaperField.Basis => "Basis of percent",
        PaperField.DecisionRule => "Decision rule",
        PaperField.Conformity => "Statement of conformity",
        PaperField.Remarks => "Remarks",
        PaperField.Reservations => "Reservations about the items tested and copies",
        PaperField.Signatures => "Signatures",
        PaperField.Verification => "Check code, hash of the content and head of the record",
        PaperField.Software => "Program and engine",
        PaperField.Manufacturer => "Manufacturer, where it is another",
        PaperField.Identification => "Further identification of the product",
        PaperField.MadeOn => "Day of manufacture",
        PaperField.ShelfLife => "Retest or expiry date",
        PaperField.Container => "Container",
        PaperField.Quantity => "Quantity",
        PaperField.CustomerReference => "Customer's reference",
        PaperField.Sampling => "When, by whom and how the sample was taken",
        PaperField.SingleRuns => "Single runs",
        PaperField.Curve => "Distribution curve",
        PaperField.Conditions => "Conditions of testing",
        PaperField.Equipment => "Balances and sieving units",
        PaperField.WholeHeadHash => "Hash of the record's head in full",
        _ => throw new ArgumentOutOfRangeException(nameof(field), field, "Not a field."),
    };
}
