using System.Net;
using Microsoft.AspNetCore.Http;
using ParticleLims.Web.Shell;
using Shouldly;
using Xunit;

namespace ParticleLims.Web.Tests.Shell;

/// <summary>What every answer carries, and what is said when there is none.</summary>
public sealed class AnswerTests : IAsyncLifetime
{
    private RunningWeb web = null!;

    public async ValueTask InitializeAsync() => web = await (await RunningWeb.StartAsync()).SetUpAsync();

    public ValueTask DisposeAsync() => web.DisposeAsync();

    [Theory]
    [InlineData("/sign-on", HttpStatusCode.OK)]
    [InlineData("/", HttpStatusCode.Redirect)]
    [InlineData("/nothing/here", HttpStatusCode.NotFound)]
    [InlineData("/error", HttpStatusCode.OK)]
    [InlineData("/house.css", HttpStatusCode.OK)]
    [InlineData("/health/live", HttpStatusCode.OK)]
    public async Task Every_answer_carries_the_security_headers(string address, HttpStatusCode status)
    {
        using var visitor = new Visitor(web);
        using var answer = await visitor.OpenAsync(address);
        answer.StatusCode.ShouldBe(status);
        var policy = answer.Headers.GetValues("Content-Security-Policy").Single();
        policy.ShouldContain("default-src 'self'");
        policy.ShouldNotContain("script-src 'self' 'unsafe-inline'");
        policy.ShouldContain("frame-ancestors 'none'");
        answer.Headers.GetValues("X-Content-Type-Options").ShouldBe(["nosniff"]);
        answer.Headers.GetValues("Referrer-Policy").ShouldBe(["no-referrer"]);
        answer.Headers.CacheControl.ShouldNotBeNull();
        answer.Headers.Contains("Server").ShouldBeFalse();
    }

    [Fact]
    public async Task A_page_that_is_not_there_is_answered_in_words()
    {
        using var visitor = new Visitor(web);
        using var answer = await visitor.OpenAsync("/nothing/here");
        (await answer.Content.ReadAsStringAsync()).ShouldContain("There is no such page");
    }

    [Fact]
    public async Task A_live_connection_asked_for_by_another_site_is_refused()
    {
        (await ConnectAsync("https://elsewhere.example")).ShouldBe(HttpStatusCode.Forbidden);
        (await ConnectAsync("null")).ShouldBe(HttpStatusCode.Forbidden);
        (await ConnectAsync(web.Address.GetLeftPart(UriPartial.Authority))).ShouldBe(HttpStatusCode.SwitchingProtocols);
    }

    [Theory]
    [InlineData("/verify/3f9c-secret", "/verify/…")]
    [InlineData("/verify", "/verify")]
    [InlineData("/lots/5", "/lots/5")]
    public void The_log_masks_the_code_of_a_certificate(string path, string written) => RequestNotes.Masked(new PathString(path)).ShouldBe(written);

    private async Task<HttpStatusCode> ConnectAsync(string origin)
    {
        using var client = new HttpClient { BaseAddress = web.Address };
        using var negotiated = await client.PostAsync(new Uri("/_blazor/negotiate?negotiateVersion=1", UriKind.Relative), null);
        using var reading = System.Text.Json.JsonDocument.Parse(await negotiated.Content.ReadAsStringAsync());
        using var request = new HttpRequestMessage(HttpMethod.Get, "/_blazor?id=" + reading.RootElement.GetProperty("connectionToken").GetString());
        request.Headers.Connection.Add("Upgrade");
        request.Headers.Upgrade.ParseAdd("websocket");
        request.Headers.Add("Origin", origin);
        request.Headers.Add("Sec-WebSocket-Version", "13");
        request.Headers.Add("Sec-WebSocket-Key", "dGhlIHNhbXBsZSBub25jZQ==");
        using var answer = await client.SendAsync(request, HttpCompletionOption.ResponseHeadersRead);
        return answer.StatusCode;
    }
}
