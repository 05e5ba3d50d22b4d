using System.Text;
using ParticleLims.Laboratory.Record;
using ParticleLims.Laboratory.Runs;
using ParticleLims.Pictures.Drawing;
using ParticleLims.Pictures.Plots;
using ParticleLims.Pictures.Svg;
using ParticleLims.Web.Controls;
using ParticleLims.Web.Shell;

namespace ParticleLims.Web.Evaluations;

/// <summary>The pictures of results as files: SVG, and the numbers as CSV.</summary>
internal static class PictureFiles
{
    /// <summary>The last accepted runs that lie faintly behind a run's curve, here and on the page.</summary>
    public const int OtherRuns = 10;

    public static void MapPictureFiles(this IEndpointRouteBuilder routes)
    {
        routes.MapGet("/review/{runId:guid}/pictures/{file}", OfRunAsync).RequireAuthorization(new NeedsAttribute(Permission.SeeLaboratory));
        routes.MapGet("/lots/{lotId:guid}/samples/{sampleId:guid}/pictures/{file}", OfSampleAsync).RequireAuthorization(new NeedsAttribute(Permission.SeeLaboratory));
    }

    /// <summary>The address of a run's pictures.</summary>
    public static string OfRun(Guid runId) => $"/review/{runId}/pictures";

    /// <summary>The address of a sample's curve, without its ending.</summary>
    public static string CurveOfSample(Guid lotId, Guid sampleId) => $"/lots/{lotId}/samples/{sampleId}/pictures/{ResultView.Curve.FileName()}";

    private static async Task<IResult> OfRunAsync(HttpContext context, Guid runId, string file, RunReading runs)
    {
        try
        {
            if (PictureFile.Read(file) is not { } wanted || await runs.FindAsync(ActorOf(context), runId, context.RequestAborted) is not { Stored: { } stored } view)
            {
                return Results.NotFound();
            }

            var others = wanted.View == ResultView.Curve ? await runs.LastAcceptedAsync(ActorOf(context), view.Run.ProductId, runId, OtherRuns, context.RequestAborted) : [];
            return Plot(wanted, view, stored, others) is { } plot ? File(plot, $"{view.Run.Number}-{wanted.Name}", wanted.IsTable) : Results.NotFound();
        }
        catch (NotPermittedException)
        {
            return Results.Forbid();
        }
    }

    private static async Task<IResult> OfSampleAsync(HttpContext context, Guid lotId, Guid sampleId, string file, RunReading runs)
    {
        try
        {
            var results = await runs.ResultsOfLotAsync(ActorOf(context), lotId, context.RequestAborted);
            return PictureFile.Read(file) is { View: ResultView.Curve } wanted && results.Find(result => result.SampleId == sampleId) is { Replicates.Count: > 0 } sample
                ? File(new DistributionCurvePlot(CurveOf.Sample($"Distribution of sample {sample.SampleCode}", sample)), $"{sample.SampleCode}-{wanted.Name}", wanted.IsTable)
                : Results.NotFound();
        }
        catch (NotPermittedException)
        {
            return Results.Forbid();
        }
    }

    private static IPlot? Plot(PictureFile wanted, RunView run, OpenedEvaluation stored, List<EvaluatedRun> others) => wanted.View switch
    {
        ResultView.Curve => new DistributionCurvePlot(CurveOf.Run($"Passing against aperture, run {run.Run.Number}", stored.Result, run.Specification.Limits, others)),
        ResultView.Budget => BudgetSubject.Of(stored.Result, run.Specification.Limits).FirstOrDefault(one => one.Key == wanted.Subject) is { } subject ? ResultPlots.Of(subject, $"run {run.Run.Number}") : null,
        _ => ResultPlots.Of(wanted.View, $"run {run.Run.Number}", stored.Result),
    };

    private static IResult File(IPlot plot, string name, bool isTable) => isTable
        ? Results.File(Encoding.UTF8.GetBytes(plot.Numbers.WithoutEmptyColumns().ToCsv()), "text/csv; charset=utf-8", name + ".csv")
        : Results.File(Encoding.UTF8.GetBytes(SvgPicture.ForFile(plot, PlotLayout.Page)), "image/svg+xml", name + ".svg");

    private static Actor ActorOf(HttpContext context) => SessionIdentity.ActorOf(context);
}

/// <summary>What a file's name asks for: a picture, of a budget also the characteristic, and whether its numbers.</summary>
internal sealed record PictureFile(ResultView View, string? Subject, bool IsTable)
{
    private const string Of = "-of-";

    /// <summary>The name without its ending.</summary>
    public string Name => NameOf(View, Subject);

    /// <summary>The name without its ending.</summary>
    public static string NameOf(ResultView view, string? subject) => view == ResultView.Budget ? view.FileName() + Of + subject : view.FileName();

    /// <summary>Null where no picture has this name.</summary>
    public static PictureFile? Read(string file)
    {
        var (name, isTable) = Path.GetExtension(file) switch
        {
            ".svg" => (file[..^4], false),
            ".csv" => (file[..^4], true),
            _ => (string.Empty, false),
        };
        var budget = ResultView.Budget.FileName() + Of;
        if (name.StartsWith(budget, StringComparison.Ordinal) && name[budget.Length..] is var subject && BudgetSubject.IsKey(subject))
        {
            return new PictureFile(ResultView.Budget, subject, isTable);
        }

        foreach (var view in Enum.GetValues<ResultView>())
        {
            if (view != ResultView.Budget && view.FileName() == name)
            {
                return new PictureFile(view, null, isTable);
            }
        }

        return null;
    }
}
