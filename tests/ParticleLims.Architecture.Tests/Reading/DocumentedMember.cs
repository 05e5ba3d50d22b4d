using System.Text.RegularExpressions;
using System.Xml.Linq;

namespace ParticleLims.Architecture.Tests.Reading;

/// <summary>A member with what its documentation says, from the file that the compiler wrote.</summary>
/// <param name="Id">"T:Namespace.Type", "P:Namespace.Type.Property", "M:Namespace.Type.Method(...)".</param>
/// <param name="Text">The whole documentation as text.</param>
internal sealed partial record DocumentedMember(string Id, string Text)
{
    /// <summary>The pages on the science behind it.</summary>
    public IEnumerable<string> SciencePages => SciencePage.Matches(Text).Select(match => match.Value).Distinct();

    [GeneratedRegex(@"docs/science/[\w-]+\.md", RegexOptions.None, matchTimeoutMilliseconds: 10_000)]
    private static partial Regex SciencePage { get; }

    /// <summary>The documented members of a project whose DLL lies beside these tests.</summary>
    public static IReadOnlyList<DocumentedMember> Of(string project) =>
    [
        .. XDocument.Load(Path.Combine(AppContext.BaseDirectory, project + ".xml")).Descendants("member")
            .Select(member => new DocumentedMember(member.Attribute("name")!.Value, string.Concat(member.DescendantNodes().Select(TextOf)))),
    ];

    public override string ToString() => Id;

    private static string TextOf(XNode node) => node switch
    {
        XText text => text.Value,
        XElement element => element.Attribute("cref")?.Value ?? string.Empty,
        _ => string.Empty,
    };
}
