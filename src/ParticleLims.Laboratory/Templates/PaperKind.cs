namespace ParticleLims.Laboratory.Templates;

/// <summary>What the paper calls itself. The two latter are in the style of EN 10204:2004, which speaks of metallic products.</summary>
public enum PaperKind
{
    /// <summary>Certificate of analysis.</summary>
    Analysis,
    /// <summary>Test report in the style of type 2.2.</summary>
    TestReport,
    /// <summary>Inspection certificate in the style of type 3.1: whoever released the lot measured nothing of it.</summary>
    InspectionCertificate,
}

/// <summary>Kinds in words.</summary>
public static class PaperKindWords
{
    /// <summary>The kind as people say it.</summary>
    public static string Words(this PaperKind kind) => kind switch
    {
        PaperKind.Analysis => "Certificate of analysis",
        PaperKind.TestReport => "Test report in the style of EN 10204, type 2.2",
        PaperKind.InspectionCertificate => "Inspection certificate in the style of EN 10204, type 3.1",
        _ => throw new ArgumentOutOfRangeException(nameof(kind), kind, "Not a kind."),
    };
}
