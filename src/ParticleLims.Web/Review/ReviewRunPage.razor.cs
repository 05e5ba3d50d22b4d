using Microsoft.AspNetCore.Components;
using MudBlazor;
using ParticleLims.Analysis.Findings;
using ParticleLims.Laboratory.Record;
using ParticleLims.Laboratory.Review;
using ParticleLims.Laboratory.Runs;
using ParticleLims.Web.Controls;
using ParticleLims.Web.Evaluations;

namespace ParticleLims.Web.Review;

/// <summary>One run under a second person's eyes.</summary>
public sealed partial class ReviewRunPage
{
    private RunView? view;
    private bool loaded;
    private bool changesOpened;
    private string reason = string.Empty;
    private List<string> findings = [];
    private List<EvaluatedRun> others = [];
    private IReadOnlyList<JudgedLimit> judged = [];

    /// <summary>The run.</summary>
    [Parameter] public Guid RunId { get; set; }

    [Inject] private RunReading Runs { get; set; } = null!;
    [Inject] private RunReview Reviews { get; set; } = null!;
    [Inject] private ISecretCheck Secrets { get; set; } = null!;
    [Inject] private IDialogService Dialogs { get; set; } = null!;

    private bool TookPart => Actor.PersonId is { } me && (view!.Run.SubmittedById == me || view.Run.StartedById == me || view.Run.Weighings.Exists(weighing => weighing.PersonId == me || weighing.ConfirmedById == me));

    /// <inheritdoc />
    protected override async Task LoadAsync()
    {
        view = await Runs.FindAsync(Actor, RunId, Leaving);
        loaded = true;
        if (view is null)
        {
            return;
        }

        others = await Runs.LastAcceptedAsync(Actor, view.Run.ProductId, view.Run.Id, PictureFiles.OtherRuns, Leaving);
        var ofEngine = view.Stored?.Result.Findings.Where(finding => finding.Severity == FindingSeverity.Finding).Select(finding => finding.Message) ?? [];
        findings = [.. view.Findings, .. ofEngine];
        judged = view.Stored is { } stored
            ? [.. view.Specification.Limits.OrderBy(limit => limit.Position).Zip(stored.Result.Verdicts, (limit, verdict) => new JudgedLimit(limit, verdict))]
            : [];
    }

    private async Task AcceptAsync()
    {
        if (await Dialogs.AskToSignAsync("reviewed", $"Run {view!.Run.Label}, {view.Product.Code}") is not { } answer)
        {
            return;
        }

        await AfterAsync(await DoAsync(async () =>
        {
            var proof = await Secrets.ProveAsync(Actor, answer.Secret, Leaving);
            await Reviews.AcceptAsync(Actor, view.Run.Id, proof, view.Run.Version, Leaving);
        }, $"{view.Run.Number} accepted"));
    }

    private async Task ReturnAsync() =>
        await AfterAsync(await DoAsync(() => Reviews.ReturnAsync(Actor, view!.Run.Id, reason, view.Run.Version, Leaving), $"{view!.Run.Number} returned to the bench"));

    private async Task InvalidateAsync()
    {
        if (await Dialogs.AskToSignAsync("invalidated", $"Run {view!.Run.Label}: {reason}") is not { } answer)
        {
            return;
        }

        await AfterAsync(await DoAsync(async () =>
        {
            var proof = await Secrets.ProveAsync(Actor, answer.Secret, Leaving);
            var done = await Reviews.InvalidateAsync(Actor, view.Run.Id, reason, proof, view.Run.Version, Leaving);
            Messages.Add(done ? $"{view.Run.Number} invalidated" : $"Signed. {view.Run.Number} is invalidated when the quality manager signs too.", Severity.Success);
        }));
    }

    private async Task ConfirmInvalidationAsync()
    {
        if (await Dialogs.AskToSignAsync("invalidated", $"Run {view!.Run.Label}: {view.Run.InvalidationProposed}") is { } answer)
        {
            await AfterAsync(await DoAsync(async () => await Reviews.ConfirmInvalidationAsync(Actor, view.Run.Id, await Secrets.ProveAsync(Actor, answer.Secret, Leaving), view.Run.Version, Leaving), $"{view.Run.Number} invalidated"));
        }
    }

    private async Task DeclineInvalidationAsync()
    {
        if (await Dialogs.AskReasonAsync("Decline", "The run stays as it is; the reviewer reads your reason.") is { } why)
        {
            await AfterAsync(await DoAsync(() => Reviews.DeclineInvalidationAsync(Actor, view!.Run.Id, why, view.Run.Version, Leaving), "Declined"));
        }
    }

    private async Task AfterAsync(bool done)
    {
        if (done)
        {
            reason = string.Empty;
            await LoadAsync();
        }
    }
}
