using System.Text.RegularExpressions;
using Microsoft.Playwright;

namespace ParticleLims.Journeys.Tests.Pages;

/// <summary>Follows the links that a person sees, at several terminals at once. Of links of one shape, such as a lot's page, the first three are followed.</summary>
public sealed partial class LinkCrawl
{
    private const int OfOneShape = 3;
    private readonly Lock gate = new();
    private readonly HashSet<string> followed = new(StringComparer.Ordinal);
    private readonly Dictionary<string, int> shapes = new(StringComparer.Ordinal);

    /// <summary>How many links were followed.</summary>
    public int Followed => followed.Count;

    /// <summary>Follows the links of the page that is open, and tells the dead ones.</summary>
    public async Task<IReadOnlyList<string>> FollowAsync(IPage page, string who)
    {
        var dead = new List<string>();
        var here = new Uri(page.Url);
        foreach (var link in await page.EvaluateAsync<string[]>("() => [...document.querySelectorAll('a')].map(a => a.hasAttribute('href') ? a.href : 'nowhere: ' + a.outerHTML)"))
        {
            if (!Uri.TryCreate(link, UriKind.Absolute, out var to) || to.Scheme is not ("http" or "https" or "mailto" or "data"))
            {
                dead.Add($"{here.PathAndQuery}: a link leads {link[..Math.Min(link.Length, 200)]}");
            }
            else if (to.Authority == here.Authority && to.PathAndQuery == here.PathAndQuery)
            {
                // A leap on the page itself: a page that says it is not there has one too.
                if (to.Fragment.Length > 1 && await page.Locator(to.Fragment).CountAsync() == 0)
                {
                    dead.Add($"{here.PathAndQuery}: there is no {to.Fragment} to leap to");
                }
            }
            else if (to.Authority == here.Authority && IsNew(who, to) && await FaultOfAsync(page, to) is { } fault)
            {
                dead.Add($"{here.PathAndQuery}: {who} sees a link to {to.PathAndQuery}, {fault}");
            }
        }

        return dead;
    }

    private bool IsNew(string who, Uri to)
    {
        var shape = who + Key.Replace(to.PathAndQuery, "*");
        lock (gate)
        {
            var seen = shapes.GetValueOrDefault(shape);
            if (seen >= OfOneShape || !followed.Add(who + to.PathAndQuery))
            {
                return false;
            }

            shapes[shape] = seen + 1;
            return true;
        }
    }

    private static async Task<string?> FaultOfAsync(IPage page, Uri to)
    {
        var answer = await page.APIRequest.GetAsync(to.ToString());
        if (!answer.Ok)
        {
            return $"which answers {answer.Status}";
        }

        var isPage = answer.Headers.GetValueOrDefault("content-type")?.StartsWith("text/html", StringComparison.Ordinal) == true;
        var words = isPage ? await answer.TextAsync() : string.Empty;
        return Nothing.Match(words) is { Success: true } found ? $"where nothing is: {found.Value}" : null;
    }

    [GeneratedRegex("[0-9a-f]{8}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{12}|[0-9a-f]{32,}", RegexOptions.None, matchTimeoutMilliseconds: 5000)]
    private static partial Regex Key { get; }

    [GeneratedRegex("data-refusal=\"[^\"]*\"|data-test=\"reference\"|There is no such \\w+", RegexOptions.None, matchTimeoutMilliseconds: 5000)]
    private static partial Regex Nothing { get; }
}
