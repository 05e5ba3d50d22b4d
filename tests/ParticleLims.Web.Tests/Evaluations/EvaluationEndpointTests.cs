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

    /// <summary>
    /// Doll's published sheet of a Rosin-Rammler line (A. Doll, 2017: n 0.8645408, 1/x' 0.014965); the least squares on the percentages by SciPy (n 0.88221048, x' 66.296105 µm). The
    /// same tables stand among the engine's tests.
    /// </summary>
    [Fact]
    public async Task A_given_distribution_is_answered_with_its_models_and_what_describes_it()
    {
        (double Aperture, double Retained)[] doll = [(600, 0.1), (425, 0.7), (300, 3.0), (212, 8.1), (150, 12.3), (106, 21.7), (75, 30.5), (53, 44.6), (45, 50.5), (38, 54.2)];
        var cuts = string.Join(", ", doll.Select(point => FormattableString.Invariant($$"""{ "apertureMicrometres": {{point.Aperture}}, "passingPercent": {{100 - point.Retained:0.0}} }""")));
        var (status, body) = await PostAsync($$"""{ "procedure": "givenDistribution", "cuts": [ {{cuts}} ], "settings": { "trueDensityGramsPerCubicCentimetre": 2.71, "shapeFactor": 1.5 } }""");
        status.ShouldBe(HttpStatusCode.OK, body.ToString());
        var models = body.GetProperty("models").EnumerateArray().ToList();
        models.Select(model => $"{model.GetProperty("model").GetString()} {model.GetProperty("method").GetString()}").ShouldBe(
        [
            "rosinRammler straightLine", "rosinRammler weightedLeastSquares", "logNormal straightLine", "logNormal weightedLeastSquares",
            "gatesGaudinSchuhmann straightLine", "gatesGaudinSchuhmann weightedLeastSquares",
        ]);
        models[0].GetProperty("parameters").GetProperty("slope").GetDouble().ShouldBe(0.8645408, 5e-8);
        (1 / models[0].GetProperty("parameters").GetProperty("sizeMicrometres").GetDouble()).ShouldBe(0.014965, 5e-7);
        models[1].GetProperty("parameters").GetProperty("slope").GetDouble().ShouldBe(0.88221048, 5e-9);
        models[1].GetProperty("standardErrors").GetProperty("sizeMicrometres").GetDouble().ShouldBe(1.1017, 5e-5);
        models[1].GetProperty("aicc").ValueKind.ShouldBe(JsonValueKind.Number);
        models[2].GetProperty("parameters").EnumerateObject().Select(member => member.Name).ShouldBe(["medianMicrometres", "geometricStandardDeviation"]);
        models[5].GetProperty("standardErrors").EnumerateObject().Select(member => member.Name).ShouldBe(["topSizeMicrometres", "exponent"]);
        models[5].GetProperty("residuals").GetArrayLength().ShouldBe(10);

        var sauter = body.GetProperty("sauterMeanMicrometres").GetDouble();
        body.GetProperty("specificSurfaceSquareMetresPerGram").GetDouble().ShouldBe(6 * 1.5 / 2.71 / sauter, 1e-12);
        body.GetProperty("geometricMeanMicrometres").GetDouble().ShouldBeInRange(38, 600);
        body.GetProperty("geometricStandardDeviation").GetDouble().ShouldBeGreaterThan(1);
        var distribution = body.GetProperty("distribution");
        distribution.GetProperty("belowFinestPercent").GetDouble().ShouldBe(45.8, 1e-12);
        distribution.GetProperty("finenessClass").GetString().ShouldBe("veryFine");
        distribution.GetProperty("uniformity").GetProperty("relation").GetString().ShouldBe(">");
        body.GetProperty("findings").EnumerateArray().Select(finding => finding.GetProperty("code").GetString()).ShouldContain("surface-of-measured-part");
    }

    [Fact]
    public async Task Uncertainties_of_given_percentages_are_needed_for_all_or_none()
    {
        var (status, body) = await PostAsync("""{ "procedure": "givenDistribution", "cuts": [ { "apertureMicrometres": 45, "passingPercent": 52, "passingStandardUncertaintyPercent": 0.3 }, { "apertureMicrometres": 63, "passingPercent": 80 } ] }""");
        status.ShouldBe(HttpStatusCode.UnprocessableEntity);
        body.GetProperty("errors").TryGetProperty("$.cuts[1].passingStandardUncertaintyPercent", out _).ShouldBeTrue();
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
    public async Task Uncertainties_come_with_budgets_intervals_and_probabilities()
    {
        var (status, body) = await PostAsync(ApiExample.Request.TrimEnd().TrimEnd('}') + """, "uncertainty": { "balanceRepeatabilityGrams": 0.002, "readabilityGrams": 0.001 } }""");
        status.ShouldBe(HttpStatusCode.OK, body.ToString());
        body.GetProperty("cuts")[0].GetProperty("standardUncertaintyPercent").GetDouble().ShouldBeGreaterThan(0);
        var median = body.GetProperty("percentiles")[1];
        var u = median.GetProperty("standardUncertainty").GetDouble();
        (median.GetProperty("interval")[1].GetDouble() - median.GetProperty("interval")[0].GetDouble()).ShouldBe(2 * 1.959963984540054 * u, 1e-9);
        median.GetProperty("uncertainty").GetProperty("budget").EnumerateArray().Sum(line => line.GetProperty("sharePercent").GetDouble()).ShouldBe(100, 1e-6);
        var verdict = body.GetProperty("verdicts")[0];
        verdict.GetProperty("expandedUncertainty").GetDouble().ShouldBe(1.959963984540054 * u, 1e-9);
        verdict.GetProperty("probabilityOfConformity").GetDouble().ShouldBeInRange(0, 1);
        body.GetProperty("uncertainty").GetProperty("method").GetString().ShouldBe("analytic");
    }

    [Fact]
    public async Task Trials_agree_with_the_law_of_propagation_and_say_so()
    {
        var (status, body) = await PostAsync(ApiExample.Request.TrimEnd().TrimEnd('}')
            + """, "uncertainty": { "balanceRepeatabilityGrams": 0.002, "readabilityGrams": 0.001, "method": "monteCarlo", "trials": 400000, "seed": 7 } }""");
        status.ShouldBe(HttpStatusCode.OK, body.ToString());
        var trials = body.GetProperty("percentiles")[1].GetProperty("uncertainty").GetProperty("trials");
        trials.GetProperty("analyticValidated").GetBoolean().ShouldBeTrue(trials.ToString());
        (body.GetProperty("uncertainty").GetProperty("trials").GetInt32(), body.GetProperty("uncertainty").GetProperty("seed").GetInt64()).ShouldBe((400_000, 7));
    }

    [Fact]
    public async Task A_guard_band_without_an_uncertainty_is_refused_at_the_rule()
    {
        var (status, body) = await PostAsync(ApiExample.Request.Replace("\"upper\": 48", "\"upper\": 48, \"rule\": \"guarded\"", StringComparison.Ordinal));
        status.ShouldBe(HttpStatusCode.UnprocessableEntity);
        body.GetProperty("code").GetString().ShouldBe("uncertainty-missing");
        body.GetProperty("errors").EnumerateObject().Single().Name.ShouldBe("$.limits[0].rule");
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
