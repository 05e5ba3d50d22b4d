using System.Text.Json.Serialization;

namespace ParticleLims.Laboratory.Certificates;

/// <summary>What a certificate says of one sample of one lot; each member as in <see cref="CertificateContent"/>.</summary>
public sealed record CertificateItem
{
    public required ProductIdentity Product { get; init; }
    public required SampleIdentity Sample { get; init; }
    public required DocumentIdentity Specification { get; init; }
    public required DocumentIdentity Method { get; init; }
    public required IReadOnlyList<ResultLine> Results { get; init; }
    public required IReadOnlyList<SieveLine> Sieves { get; init; }

    [JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)]
    public ReceiverLine? Receiver { get; init; }
    public required string Basis { get; init; }
    public required IReadOnlyList<ReplicateLine> Replicates { get; init; }
    public required IReadOnlyList<string> Conditions { get; init; }
    public required IReadOnlyList<string> Equipment { get; init; }
    public required CurveContent Curve { get; init; }
    public Measurements? Measurements { get; init; }
    public required string Conformity { get; init; }
    public required string DecisionRule { get; init; }
    public required IReadOnlyList<string> Remarks { get; init; }
}
