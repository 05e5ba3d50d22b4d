namespace ParticleLims.Laboratory.Templates;

/// <summary>What the accreditation covers. A certificate whose methods are not all named, or that is issued after the last day, says that it carries none.</summary>
/// <param name="Methods">The codes of the methods, for example <c>M-GC-45</c>.</param>
/// <param name="Until">The last day on which it holds, in the laboratory's time.</param>
public sealed record AccreditedScope(IReadOnlyList<string> Methods, DateOnly Until)
{
    /// <summary>Whether it covers these methods on that day.</summary>
    public bool Covers(IEnumerable<string> methods, DateOnly day) => day <= Until && methods.All(Methods.Contains);
}
