using System.Text.Json;
using System.Text.Json.Nodes;
using System.Text.Json.Serialization;
using Microsoft.AspNetCore.OpenApi;
using Microsoft.OpenApi;

namespace ParticleLims.Web.Evaluations;

/// <summary>The REST interface: access by token, problems as RFC 9457, its description as OpenAPI 3.1.</summary>
internal static class ApiSetup
{
    public static void AddApi(this IServiceCollection services)
    {
        services.AddApiAccess();
        services.ConfigureHttpJsonOptions(options => options.SerializerOptions.Converters.Add(new JsonStringEnumConverter(JsonNamingPolicy.CamelCase, allowIntegerValues: false)));
        services.AddOpenApi("v1", options =>
        {
            options.OpenApiVersion = OpenApiSpecVersion.OpenApi3_1;
            options.AddDocumentTransformer(DescribeAsync);
            options.AddOperationTransformer(GiveExampleAsync);
        });
    }

    public static void MapApi(this WebApplication application)
    {
        application.MapOpenApi("/openapi/{documentName}.json").AllowAnonymous();
        application.MapEvaluations();
    }

    private static Task DescribeAsync(OpenApiDocument document, OpenApiDocumentTransformerContext context, CancellationToken cancellation)
    {
        document.Info = new OpenApiInfo
        {
            Title = "ParticleLims", Version = "v1",
            Description = "Particle-size testing by sieving. Numbers may be JSON numbers or decimal strings; unknown members are refused; errors are RFC 9457 problem details whose errors are keyed by the JSON path of the bad member.",
        };
        document.Components ??= new OpenApiComponents();
        document.Components.SecuritySchemes = new Dictionary<string, IOpenApiSecurityScheme>(StringComparer.Ordinal)
        {
            ["token"] = new OpenApiSecurityScheme { Type = SecuritySchemeType.Http, Scheme = "bearer", Description = "A token from Administration; it has scopes and expires." },
        };
        document.Security = [new OpenApiSecurityRequirement { [new OpenApiSecuritySchemeReference("token", document)] = [] }];
        return Task.CompletedTask;
    }

    private static Task GiveExampleAsync(OpenApiOperation operation, OpenApiOperationTransformerContext context, CancellationToken cancellation)
    {
        if (operation is { OperationId: "evaluate", RequestBody.Content: { } contents } && contents.TryGetValue("application/json", out var media))
        {
            media.Example = JsonNode.Parse(ApiExample.Request);
        }

        return Task.CompletedTask;
    }
}
