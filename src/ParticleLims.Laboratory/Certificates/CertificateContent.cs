using System.Text.Json.Serialization;

namespace ParticleLims.Laboratory.Certificates;

/// <summary>
/// What a certificate says, frozen when it is issued. The PDF is drawn from this alone, so a reprint is the same;
/// its canonical JSON is what the signature and the content hash bind.
/// All texts are already in their printed form unless a unit is named.
/// </summary>
public sealed record CertificateContent
{
    /// <summary>The version of the form that has further samples: whoever reads version 1 alone must not take the first sample for all.</summary>
    public const int SeveralSamples = 2;

    /// <summary>The name of this form; machines read it first.</summary>
    public string Format { get; init; } = "particlelims-certificate";

    /// <summary>The version of this form; the schema of each version is published by the program under <c>/schemas</c>.</summary>
    public int FormatVersion { get; init; } = 1;

    /// <summary>The language of all texts, by ISO 639-1.</summary>
    public string Language { get; init; } = "en";

    /// <summary>The sheet that it is drawn on: <c>A4</c> or <c>Letter</c>.</summary>
    public string Paper { get; init; } = "A4";

    /// <summary>Whether the Rosin-Rammler net is drawn below the curve.</summary>
    public bool RosinRammlerNet { get; init; }

    /// <summary>The certificate's number, for example <c>C-26-00042</c>; null on a draft.</summary>
    public required string? Number { get; init; }

    /// <summary>1 for the first issue; each revision replaces the one before.</summary>
    public required int Revision { get; init; }

    /// <summary>The number of the certificate that this one replaces, and why; null on a first issue.</summary>
    public string? Replaces { get; init; }

    public required bool Demonstration { get; init; }
    public required Party Issuer { get; init; }
    public required Party Customer { get; init; }
    public required ProductIdentity Product { get; init; }
    public required SampleIdentity Sample { get; init; }
    public required DocumentIdentity Specification { get; init; }
    public required DocumentIdentity Method { get; init; }
    public required IReadOnlyList<ResultLine> Results { get; init; }
    public required IReadOnlyList<SieveLine> Sieves { get; init; }

    /// <summary>What lay in the receiver; null where there was none.</summary>
    [JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)]
    public ReceiverLine? Receiver { get; init; }

    /// <summary>How the percentages are formed, for instance "percent of the test portion (mean 12.004 g)".</summary>
    public required string Basis { get; init; }

    /// <summary>Individual replicates behind the means: run number and what it gave.</summary>
    public required IReadOnlyList<ReplicateLine> Replicates { get; init; }

    /// <summary>Test conditions in words, one sentence each: seconds, pressure, end point.</summary>
    public required IReadOnlyList<string> Conditions { get; init; }

    /// <summary>Equipment by name and serial number: sieves stand in <see cref="Sieves"/>, here the balances and others.</summary>
    public required IReadOnlyList<string> Equipment { get; init; }

    /// <summary>The curve as numbers; the picture is drawn from them.</summary>
    public required CurveContent Curve { get; init; }

    /// <summary>The numbers behind the printed values, exact and in base units, so that anybody can compute the results again.</summary>
    public Measurements? Measurements { get; init; }

    /// <summary>The overall statement of conformity: which results, which specification.</summary>
    public required string Conformity { get; init; }

    /// <summary>The decision rule in words.</summary>
    public required string DecisionRule { get; init; }

    /// <summary>Concessions, overrides, invalidated runs, one-person laboratory: each a sentence; empty when none.</summary>
    public required IReadOnlyList<string> Remarks { get; init; }

    public required IReadOnlyList<SignatureLine> Signatures { get; init; }

    /// <summary>When it was issued, UTC.</summary>
    public required DateTimeOffset IssuedAt { get; init; }

    /// <summary>The IANA time zone in which the paper shows times, for example <c>Europe/Dublin</c>.</summary>
    public required string TimeZone { get; init; }

    /// <summary>The address that the QR code carries; null on a draft.</summary>
    public required string? VerifyAddress { get; init; }

    /// <summary>The newest event of the record when this was frozen: sequence number and hash (hexadecimal).</summary>
    public required RecordHead RecordHead { get; init; }

    public required string SoftwareVersion { get; init; }
    public required string EngineVersion { get; init; }

    /// <summary>The overall statement where the certificate speaks of several samples; null where <see cref="Conformity"/> says it all.</summary>
    [JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)]
    public string? Overall { get; init; }

    /// <summary>The samples after the first, in the order in which they are printed; null for a certificate of one sample.</summary>
    [JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)]
    public IReadOnlyList<CertificateItem>? Further { get; init; }

    /// <summary>How the paper looks, by the template that was in force; null for a certificate from before there were templates.</summary>
    [JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)]
    public CertificateLayout? Layout { get; init; }

    /// <summary>Every sample that the certificate speaks of: the one that its own members hold, and the further ones.</summary>
    [JsonIgnore]
    public IReadOnlyList<CertificateItem> Items =>
    [
        new CertificateItem
        {
            Product = Product, Sample = Sample, Specification = Specification, Method = Method, Results = Results, Sieves = Sieves, Receiver = Receiver, Basis = Basis, Replicates = Replicates, Conditions = Conditions,
            Equipment = Equipment, Curve = Curve, Measurements = Measurements, Conformity = Conformity, DecisionRule = DecisionRule, Remarks = Remarks,
        },
        .. Further ?? [],
    ];
}

/// <summary>An organisation as printed: name, address lines, contact.</summary>
public sealed record Party(string Name, IReadOnlyList<string> Address, string Contact);

/// <summary>The product and the lot.</summary>
public sealed record ProductIdentity(string Code, string Name, string LotNumber, DateOnly? MadeOn, string? Quantity, string? CustomerReference)
{
    /// <summary>A further identification, for example a CAS number; null for none.</summary>
    [JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)]
    public string? Identification { get; init; }

    /// <summary>Who makes the product and where; null where the issuer's own works do.</summary>
    [JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)]
    public string? Manufacturer { get; init; }

    /// <summary>What the lot is packed in; null where nobody said.</summary>
    [JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)]
    public string? Container { get; init; }

    /// <summary>The day from which on the lot is tested again before use; null for none.</summary>
    [JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)]
    public DateOnly? RetestOn { get; init; }

    /// <summary>The lot's last day of use; null for none.</summary>
    [JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)]
    public DateOnly? ExpiresOn { get; init; }
}

/// <summary>The sample: label code, what it looked like, when and how it was taken, received and tested.</summary>
public sealed record SampleIdentity(
    string Code, string Description, string ConditionOnReceipt, DateTimeOffset? TakenAt, string TakenBy, string SamplingWay,
    DateTimeOffset ReceivedAt, DateTimeOffset TestedFrom, DateTimeOffset TestedTo);

/// <summary>A controlled document: code, title, version, in force since.</summary>
public sealed record DocumentIdentity(string Code, string Title, int Version, DateOnly InForceFrom);

/// <summary>One line of the results table, every value as printed.</summary>
public sealed record ResultLine(string Characteristic, string Unit, string Lower, string Upper, string Result, string? Uncertainty, string Verdict);

/// <summary>One sieve: aperture in µm as printed, serial number, standard, masses in g, percentages as printed (means of replicates). What is retained counts everything coarser too.</summary>
public sealed record SieveLine(string Aperture, string Serial, string Standard, string Residue, string Retained, string Passing)
{
    /// <summary>The share of what lay on this sieve alone, in percent, as printed; null where each sieve was passed by the whole portion, so that it holds everything coarser.</summary>
    [JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)]
    public string? Fraction { get; init; }
}

/// <summary>What lay in the receiver below a nested stack: mass in g and share in percent, as printed (means of replicates).</summary>
public sealed record ReceiverLine(string Residue, string Fraction);

/// <summary>One run behind the mean.</summary>
public sealed record ReplicateLine(string Run, string Values);

/// <summary>A signature as printed.</summary>
public sealed record SignatureLine(string Meaning, string PrintedName, string Function, DateTimeOffset At);

/// <summary>The head of the record: its last event.</summary>
public sealed record RecordHead(long Sequence, string Hash);

/// <summary>The numbers behind the printed curve; apertures in µm, passing in percent.</summary>
public sealed record CurveContent(
    IReadOnlyList<CurvePointContent> Points, IReadOnlyList<CurveGateContent> Gates, IReadOnlyList<CurveMarkContent> Percentiles, CurveModelContent? RosinRammler);

/// <summary>One measured point.</summary>
public sealed record CurvePointContent(double ApertureMicrometres, double PassingPercent, double? StandardUncertaintyPercent);

/// <summary>A limit drawn as a gate: at an aperture a window of passing, or at a percentage a window of sizes; null is open.</summary>
public sealed record CurveGateContent(string Label, double? ApertureMicrometres, double? PassingPercent, double? Lower, double? Upper);

/// <summary>A marked percentile, for example D50 at 43.2 µm.</summary>
public sealed record CurveMarkContent(string Label, double PassingPercent, double Micrometres);

/// <summary>A fitted Rosin-Rammler line: size x' in µm (63.2 % passing) and slope n.</summary>
public sealed record CurveModelContent(double SizeMicrometres, double Slope);
