namespace ParticleLims.Analysis.Findings;

/// <summary>Gathers findings in the order they are made.</summary>
internal sealed class FindingLog
{
    private readonly List<Finding> _findings = [];

    public bool HasRefusal { get; private set; }

    public IReadOnlyList<Finding> All => _findings.AsReadOnly();

    public IReadOnlyList<Finding> Refusals =>
        _findings.Where(finding => finding.Severity == FindingSeverity.Refusal).ToList().AsReadOnly();

    public void Note(string code, string message, string? member = null) => Add(FindingSeverity.Note, code, message, member);

    public void Find(string code, string message, string? member = null) => Add(FindingSeverity.Finding, code, message, member);

    public void Refuse(string code, string message, string? member = null)
    {
        HasRefusal = true;
        Add(FindingSeverity.Refusal, code, message, member);
    }

    private void Add(FindingSeverity severity, string code, string message, string? member) =>
        _findings.Add(new Finding { Code = code, Severity = severity, Message = message, Member = member });
}
