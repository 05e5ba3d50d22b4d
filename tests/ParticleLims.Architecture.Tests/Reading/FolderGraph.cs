namespace ParticleLims.Architecture.Tests.Reading;

/// <summary>Which feature folder of a project uses which.</summary>
internal sealed record FolderGraph(string Root, IReadOnlyDictionary<(string From, string To), string> Edges)
{
    /// <summary>Holds all features together, so that all know it and it knows all: it is no feature.</summary>
    private const string Technical = "Storage";

    public static FolderGraph Of(string root, IEnumerable<BuiltType> types)
    {
        var edges = new Dictionary<(string, string), string>();
        foreach (var type in types)
        {
            foreach (var use in type.Uses)
            {
                if (BuiltType.FolderOf(type.Name, root) is { } from && BuiltType.FolderOf(use, root) is { } to && from != to && from != Technical && to != Technical)
                {
                    edges.TryAdd((from, to), $"{type.Name} uses {use}");
                }
            }
        }

        return new FolderGraph(root, edges);
    }

    /// <summary>The uses that are part of a cycle.</summary>
    public IEnumerable<string> Cycles() =>
        from edge in Edges
        where Reaches(edge.Key.To, edge.Key.From, [])
        select $"{edge.Key.From} -> {edge.Key.To} ({edge.Value})";

    private bool Reaches(string from, string to, HashSet<string> seen) =>
        from == to || (seen.Add(from) && Edges.Keys.Any(edge => edge.From == from && Reaches(edge.To, to, seen)));
}
