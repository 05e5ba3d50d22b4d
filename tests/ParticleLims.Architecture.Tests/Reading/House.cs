namespace ParticleLims.Architecture.Tests.Reading;

/// <summary>The repository on disk.</summary>
internal static class House
{
    private static readonly string[] NotOurs = ["bin", "obj", "artifacts", "TestResults", "BenchmarkDotNet.Artifacts", "node_modules", "data", ".git", ".vs", ".idea"];

    /// <summary>The folder that holds the solution.</summary>
    public static string Root { get; } = FindRoot(AppContext.BaseDirectory);

    /// <summary>Every project file in src and tests.</summary>
    public static IReadOnlyList<ProjectFile> Projects { get; } =
        [.. Files("src", ".csproj").Concat(Files("tests", ".csproj")).Select(file => ProjectFile.Read(Path.GetFileNameWithoutExtension(file), File.ReadAllText(Full(file))))];

    /// <summary>The full path of a path in the repository.</summary>
    public static string Full(string path) => Path.Combine(Root, path);

    /// <summary>Whether a path in the repository exists.</summary>
    public static bool Has(string path) => File.Exists(Full(path)) || Directory.Exists(Full(path));

    /// <summary>The files under a folder with one of the endings (all files without one), as paths in the repository; nothing that is built.</summary>
    public static IEnumerable<string> Files(string folder, params string[] endings) =>
        !Directory.Exists(Full(folder))
            ? []
            : Directory.GetFiles(Full(folder))
                .Where(file => endings.Length == 0 || endings.Any(ending => file.EndsWith(ending, StringComparison.Ordinal)))
                .Select(Relative)
                .Concat(Folders(folder).SelectMany(inner => Files(inner, endings)))
                .Order(StringComparer.Ordinal);

    /// <summary>The folders directly in a folder, as paths in the repository; nothing that is built.</summary>
    public static IEnumerable<string> Folders(string folder) =>
        Directory.GetDirectories(Full(folder)).Where(inner => !NotOurs.Contains(Path.GetFileName(inner))).Select(Relative);

    /// <summary>A text file of the repository.</summary>
    public static TextFile Read(string path) => new(path, File.ReadAllText(Full(path)));

    private static string Relative(string path) => Path.GetRelativePath(Root, path).Replace('\\', '/');

    private static string FindRoot(string folder) =>
        File.Exists(Path.Combine(folder, "ParticleLims.sln"))
            ? folder
            : FindRoot(Path.GetDirectoryName(Path.TrimEndingDirectorySeparator(folder)) ?? throw new InvalidOperationException("The tests run inside the repository."));
}

/// <summary>A text with its path in the repository.</summary>
internal sealed record TextFile(string Path, string Text)
{
    public override string ToString() => Path;
}
