namespace ParticleLims.Analysis.Tests.Science;

/// <summary>The pages of docs/science in the working copy.</summary>
internal static class SciencePages
{
    public static string Root { get; } = FindRoot();

    public static IReadOnlyList<string> Names => Directory.GetFiles(Path.Combine(Root, "docs", "science"), "*.md")
        .Select(Path.GetFileName).OfType<string>().Order(StringComparer.Ordinal).ToList();

    public static string Text(string name) => File.ReadAllText(Path.Combine(Root, "docs", "science", name));

    /// <summary>The worked numbers of a page: its lines that begin with a quotation mark.</summary>
    public static IReadOnlyList<string> WorkedNumbers(string name) => Text(name).Split('\n')
        .Where(line => line.StartsWith("> ", StringComparison.Ordinal)).Select(line => line[2..].Trim()).ToList();

    private static string FindRoot()
    {
        var folder = new DirectoryInfo(AppContext.BaseDirectory);
        while (folder is not null && !File.Exists(Path.Combine(folder.FullName, "ParticleLims.sln")))
        {
            folder = folder.Parent;
        }

        return folder?.FullName ?? throw new InvalidOperationException("The tests run inside the working copy.");
    }
}
