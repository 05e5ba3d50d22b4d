using System.Net;
using System.Net.Http.Headers;
using System.Text;
using System.Text.Json;
using ParticleLims.Laboratory.People;
using ParticleLims.Web.Evaluations;
using Shouldly;
using Xunit;

namespace ParticleLims.Web.Tests.Evaluations;

/// <summary>The REST interface as a program meets it: over HTTP, with a token.</summary>
public sealed class EvaluationEndpointTests : IAsyncLifetime
{
    private RunningWeb web = null!;
    private string token = null!;

    public async ValueTask InitializeAsync()
    {
        web = await (await RunningWeb.StartAsync()).SetUpAsync();
        var technician = await web.AddAsync("tom", Role.Technician);
        token = await web.Get<ApiTokens>().IssueAsync(web.Administrator, technician.PersonId!.Value, "test", [TokenScope.Evaluate], TimeSpan.FromDays(1), CancellationToken.None);
    }

    public ValueTask DisposeAsync() => web.DisposeAsync();

    [Fact]
    public async Task The_documented_example_is_answered_with_its_numbers()
    {
        var (status, body) = await PostAsync(ApiExample.Request);
        status.ShouldBe(HttpStatusCode.OK);

        // By hand: residues 8.760, 5.520, 0.720 g of 12.000 g leave 27, 54 and 94 % passing.
        body.GetProperty("cuts").EnumerateArray().Select(cut => Math.Round(cut.GetProperty("passingPercent").GetDouble(), 10)).ShouldBe([27, 54, 94]);
        body.GetProperty("cuts")[0].GetProperty("residueGrams").GetDecimal().ShouldBe(8.760m);
        body.GetProperty("percentiles")[0].GetProperty("relation").GetString().ShouldBe("<");
        body.GetProperty("percentiles")[0].GetProperty("micrometres").GetDouble().ShouldBe(20);
        var d50 = 20 * Math.Exp((50 - 27) / (54.0 - 27) * Math.Log(45 / 20.0));
        body.GetProperty("percentiles")[1].GetProperty("micrometres").GetDouble().ShouldBe(d50, 1e-9);
        body.GetProperty("verdicts")[0].GetProperty("verdict").GetString().ShouldBe("conforms");
        body.GetProperty("verdicts")[1].GetProperty("rounded").GetString().ShouldBe("94.0");
        body.GetProperty("models")[0].GetProperty("model").GetString().ShouldBe("rosinRammler");
    }

    [Theory]
    [InlineData("\"after\": 1", "$.cuts[0].after", HttpStatusCode.BadRequest)]
    [InlineData("\"afterGrams\": \"abc\"", "$.cuts[0].afterGrams", HttpStatusCode.BadRequest)]
    [InlineData("\"afterGrams\": \"318,0011\"", "$.cuts[0].afterGrams", HttpStatusCode.BadRequest)]
    [InlineData("\"afterGrams\": 318.00112345", "$.cuts[0].afterGrams", HttpStatusCode.UnprocessableEntity)]
    [InlineData("\"afterGrams\": -1", "$.cuts[0].afterGrams", HttpStatusCode.UnprocessableEntity)]
    [InlineData("\"afterGrams\": 330", "$.cuts[0].afterGrams", HttpStatusCode.UnprocessableEntity)]
    public async Task A_bad_member_is_refused_at_its_path(string member, string path, HttpStatusCode expected)
    {
        var (status, body) = await PostAsync($$"""{ "procedure": "separatePortions", "cuts": [ { "apertureMicrometres": 45, "emptyGrams": "312.3450", "loadedGrams": "324.3452", {{member}} } ] }""");
        status.ShouldBe(expected, body.ToString());
        body.GetProperty("errors").EnumerateObject().Select(error => error.Name).ShouldContain(path);
    }

    [Fact]
    public async Task What_the_engine_cannot_do_yet_is_refused_and_not_left_out()
    {
        var (status, body) = await PostAsync(ApiExample.Request.TrimEnd().TrimEnd('}') + """, "uncertainty": { "balanceRepeatabilityGrams": 0.002, "readabilityGrams": 0.001 } }""");
        status.ShouldBe(HttpStatusCode.UnprocessableEntity);
        body.GetProperty("code").GetString().ShouldBe("not-available-yet");
    }

    [Fact]
    public async Task Without_a_token_and_with_a_revoked_one_nothing_is_answered()
    {
        token = string.Empty;
        (await PostAsync(ApiExample.Request)).Status.ShouldBe(HttpStatusCode.Unauthorized);
        token = "plt_0000";
        (await PostAsync(ApiExample.Request)).Status.ShouldBe(HttpStatusCode.Unauthorized);
    }

    [Fact]
    public async Task A_token_reaches_no_further_than_its_person()
    {
        var administrator = web.Administrator.PersonId!.Value;
        token = await web.Get<ApiTokens>().IssueAsync(web.Administrator, administrator, "administrator", [TokenScope.Evaluate], TimeSpan.FromDays(1), CancellationToken.None);
        (await PostAsync(ApiExample.Request)).Status.ShouldBe(HttpStatusCode.Forbidden);
    }

    [Fact]
    public async Task The_description_is_openapi_3_1_and_tells_the_members_with_their_units()
    {
        var description = JsonDocument.Parse(await web.Client.GetStringAsync("/openapi/v1.json")).RootElement;
        description.GetProperty("openapi").GetString()!.ShouldStartWith("3.1");
        description.GetProperty("paths").GetProperty("/api/v1/evaluations").GetProperty("post").GetProperty("requestBody").ToString().ShouldContain("carriedResidue");
        description.GetProperty("components").GetProperty("schemas").GetProperty("CutQuestion").GetProperty("properties").TryGetProperty("emptyGrams", out _).ShouldBeTrue();
    }

    private async Task<(HttpStatusCode Status, JsonElement Body)> PostAsync(string json)
    {
        using var request = new HttpRequestMessage(HttpMethod.Post, "/api/v1/evaluations") { Content = new StringContent(json, Encoding.UTF8, "application/json") };
        request.Headers.Authorization = token.Length > 0 ? new AuthenticationHeaderValue("Bearer", token) : null;
        using var answer = await web.Client.SendAsync(request);
        return (answer.StatusCode, JsonDocument.Parse(await answer.Content.ReadAsStringAsync()).RootElement);
    }
}
