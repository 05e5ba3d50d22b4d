using System.Text.Json;
using Microsoft.AspNetCore.Mvc;
using ParticleLims.Analysis.Findings;

namespace ParticleLims.Web.Evaluations;

/// <summary>Refusals as RFC 9457 problem details, with <c>errors</c> keyed by the JSON path of the bad member.</summary>
internal static class ApiProblems
{
    public static IResult BadJson(JsonException fault)
    {
        var path = string.IsNullOrEmpty(fault.Path) ? "$" : fault.Path;
        var words = fault.Message.Split(" Path:")[0];
        return Errors(StatusCodes.Status400BadRequest, "json", new Dictionary<string, string[]> { [path] = [words] });
    }

    public static IResult Refused(IReadOnlyList<Finding> findings)
    {
        var errors = findings.GroupBy(finding => "$" + (string.IsNullOrEmpty(finding.Member) ? string.Empty : "." + finding.Member), StringComparer.Ordinal)
            .ToDictionary(group => group.Key, group => group.Select(finding => finding.Message).ToArray(), StringComparer.Ordinal);
        return Errors(StatusCodes.Status422UnprocessableEntity, findings[0].Code, errors);
    }

    public static IResult Errors(int status, string code, IReadOnlyDictionary<string, string[]> errors) => Results.Problem(new ProblemDetails
    {
        Status = status,
        Title = status == StatusCodes.Status400BadRequest ? "The request cannot be read" : "The request was refused",
        Detail = string.Join(' ', errors.Values.SelectMany(words => words)),
        Extensions = { ["code"] = code, ["errors"] = errors },
    });
}
