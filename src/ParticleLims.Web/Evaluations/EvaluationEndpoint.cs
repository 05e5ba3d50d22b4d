using System.Text.Json;
using System.Text.Json.Serialization;
using Microsoft.AspNetCore.Mvc;
using ParticleLims.Analysis;
using ParticleLims.Laboratory.People;
using ParticleLims.Laboratory.Record;
using ParticleLims.Laboratory.Runs;
using ParticleLims.Web.Shell;

namespace ParticleLims.Web.Evaluations;

/// <summary><c>POST /api/v1/evaluations</c>: the same engine as the screens, on numbers of one's own; nothing is stored.</summary>
internal static class EvaluationEndpoint
{
    /// <summary>How the interface reads and writes JSON: unknown members, duplicates and missing ones are refused.</summary>
    public static JsonSerializerOptions Json { get; } = new(JsonSerializerDefaults.Web)
    {
        UnmappedMemberHandling = JsonUnmappedMemberHandling.Disallow,
        PropertyNameCaseInsensitive = false,
        AllowDuplicateProperties = false,
        RespectNullableAnnotations = true,
        NumberHandling = JsonNumberHandling.Strict,
        MaxDepth = 16,
        Converters = { new ExactDecimal(), new JsonStringEnumConverter(JsonNamingPolicy.CamelCase, allowIntegerValues: false) },
    };

    public static void MapEvaluations(this IEndpointRouteBuilder routes) =>
        routes.MapPost("/api/v1/evaluations", EvaluateAsync).RequireAuthorization(ApiAccess.Policy(TokenScope.Evaluate)).DisableAntiforgery()
            .WithName("evaluate").WithSummary("Evaluate without storing").WithTags("Evaluations")
            .WithDescription("Runs the engine of the screens on the weighings given. Masses are kept exactly to the microgram, apertures to the nanometre. A refusal is answered 422 with the path of each bad member and the code of the finding.")
            .Accepts<EvaluationQuestion>("application/json").Produces<EvaluationAnswer>()
            .ProducesProblem(StatusCodes.Status400BadRequest).ProducesProblem(StatusCodes.Status401Unauthorized).ProducesProblem(StatusCodes.Status403Forbidden).ProducesValidationProblem(StatusCodes.Status422UnprocessableEntity);

    private static async Task<IResult> EvaluateAsync(HttpContext context, FreeEvaluation evaluations)
    {
        EvaluationQuestion? question;
        try
        {
            question = await JsonSerializer.DeserializeAsync<EvaluationQuestion>(context.Request.Body, Json, context.RequestAborted);
        }
        catch (JsonException fault)
        {
            return ApiProblems.BadJson(fault);
        }

        if (question is null || question.Cuts.Any(cut => cut is null) || question.Limits?.Any(limit => limit is null) == true)
        {
            return ApiProblems.Errors(StatusCodes.Status400BadRequest, "json", new Dictionary<string, string[]> { ["$"] = ["Send an object; its lists hold no null."] });
        }

        var reading = new QuestionReading();
        var request = reading.Read(question);
        if (reading.Errors.Count > 0)
        {
            return ApiProblems.Errors(StatusCodes.Status422UnprocessableEntity, "quantity-outside-range", reading.Errors);
        }

        try
        {
            var actor = new Actor(SessionIdentity.PersonId(context.User), ApiAccess.Terminal(context));
            return await evaluations.EvaluateAsync(actor, request, context.RequestAborted) switch
            {
                Evaluated evaluated => Results.Json(EvaluationAnswer.Of(evaluated.Result), Json),
                Refused refused => ApiProblems.Refused(refused.Findings),
                _ => throw new InvalidOperationException("An evaluation gives a result or a refusal."),
            };
        }
        catch (NotPermittedException refusal)
        {
            return Results.Problem(new ProblemDetails { Status = StatusCodes.Status403Forbidden, Title = "Not permitted", Detail = refusal.Message });
        }
    }
}
