using System.Xml.Linq;

namespace ParticleLims.Architecture.Tests.Reading;

/// <summary>A project and the projects that it refers to.</summary>
internal sealed record ProjectFile(string Name, IReadOnlyList<string> References)
{
    public bool IsTest => Name.EndsWith(".Tests", StringComparison.Ordinal);

    public static ProjectFile Read(string name, string xml) => new(
        name,
        [.. XDocument.Parse(xml).Descendants("ProjectReference").Select(reference => Path.GetFileNameWithoutExtension(reference.Attribute("Include")!.Value))]);

    public override string ToString() => $"{Name} -> {string.Join(", ", References)}";
}
