using System.Net;
using System.Text.RegularExpressions;

namespace ParticleLims.Web.Tests.Shell;

/// <summary>Somebody with a browser that keeps cookies and follows no redirect by itself.</summary>
public sealed partial class Visitor : IDisposable
{
    private readonly HttpClient client;

    public Visitor(RunningWeb web)
    {
        ArgumentNullException.ThrowIfNull(web);
        client = new HttpClient(new HttpClientHandler { AllowAutoRedirect = false, CookieContainer = Cookies }) { BaseAddress = web.Address };
    }

    /// <summary>What the browser keeps.</summary>
    public CookieContainer Cookies { get; } = new();

    [GeneratedRegex("name=\"__RequestVerificationToken\" value=\"(?<token>[^\"]+)\"", RegexOptions.None, matchTimeoutMilliseconds: 1_000)]
    private static partial Regex Token { get; }

    [GeneratedRegex("data-test=\"refusal\">(?<words>[^<]*)<", RegexOptions.None, matchTimeoutMilliseconds: 1_000)]
    private static partial Regex RefusalWords { get; }

    /// <summary>Opens an address.</summary>
    public Task<HttpResponseMessage> OpenAsync(string address) => client.GetAsync(new Uri(address, UriKind.Relative));

    /// <summary>Posts a form without anything that the page would add.</summary>
    public Task<HttpResponseMessage> PostBareAsync(string address, params (string Name, string Value)[] fields) =>
        client.PostAsync(new Uri(address, UriKind.Relative), new FormUrlEncodedContent(fields.Select(field => KeyValuePair.Create(field.Name, field.Value))));

    /// <summary>Posts JSON, as a program does, with the cookies of this browser.</summary>
    public async Task<HttpResponseMessage> PostJsonAsync(string address, string json)
    {
        using var content = new StringContent(json, System.Text.Encoding.UTF8, "application/json");
        return await client.PostAsync(new Uri(address, UriKind.Relative), content);
    }

    /// <summary>Opens a page and posts its form to an address.</summary>
    public async Task<HttpResponseMessage> PostAsync(string page, string address, params (string Name, string Value)[] fields)
    {
        var html = await client.GetStringAsync(new Uri(page, UriKind.Relative));
        return await PostBareAsync(address, [.. fields, ("__RequestVerificationToken", WebUtility.HtmlDecode(Token.Match(html).Groups["token"].Value))]);
    }

    /// <summary>Signs on.</summary>
    public Task<HttpResponseMessage> SignOnAsync(string name, string password, string to = "/") => PostAsync("/sign-on", "/sign-on", ("name", name), ("password", password), ("to", to));

    /// <summary>The refusal that a page shows; null when none.</summary>
    public async Task<string?> RefusalAsync(string page) => RefusalIn(await client.GetStringAsync(new Uri(page, UriKind.Relative)));

    /// <summary>The refusal in a page's text.</summary>
    public static string? RefusalIn(string html) => RefusalWords.Match(html) is { Success: true } match ? WebUtility.HtmlDecode(match.Groups["words"].Value) : null;

    /// <inheritdoc />
    public void Dispose() => client.Dispose();
}
