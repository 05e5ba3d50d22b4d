using System.Text.RegularExpressions;

namespace ParticleLims.Analysis.Tests.Science;

public sealed partial class SciencePageTests
{
    [Fact]
    public void Every_page_named_in_the_code_exists()
    {
        var sources = Directory.GetFiles(Path.Combine(SciencePages.Root, "src", "ParticleLims.Analysis"), "*.cs", SearchOption.AllDirectories);
        var named = sources.SelectMany(file => PageName().Matches(File.ReadAllText(file)).Select(match => match.Groups["page"].Value)).Distinct().ToList();
        named.Count.ShouldBeGreaterThan(8);
        named.ShouldBeSubsetOf(SciencePages.Names);
    }

    [Fact]
    public void Every_page_stands_in_the_index()
    {
        var index = SciencePages.Text("README.md");
        foreach (var page in SciencePages.Names.Where(name => name != "README.md"))
        {
            index.ShouldContain($"]({page})");
        }
    }

    [Fact]
    public void Every_page_tells_source_and_range()
    {
        foreach (var page in SciencePages.Names.Where(name => name != "README.md"))
        {
            SciencePages.Text(page).ShouldContain("**Source", Case.Sensitive, page);
            SciencePages.Text(page).ShouldContain("**Outside", Case.Sensitive, page);
        }
    }

    [GeneratedRegex(@"docs/science/(?<page>[a-z-]+\.md)", RegexOptions.NonBacktracking | RegexOptions.ExplicitCapture)]
    private static partial Regex PageName();
}
