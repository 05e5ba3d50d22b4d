using Microsoft.AspNetCore.Components;
using MudBlazor;
using ParticleLims.Laboratory.Dispositions;
using ParticleLims.Laboratory.Lots;
using ParticleLims.Laboratory.Record;
using ParticleLims.Laboratory.Runs;
using ParticleLims.Laboratory.Specifications;
using ParticleLims.Web.Controls;

namespace ParticleLims.Web.Dispositions;

/// <summary>Everything about one lot on one page, and the signature under it.</summary>
public sealed partial class DecisionPage
{
    private LotEvidence? evidence;
    private LotRow? lot;
    private bool loaded;
    private string proposalReason = string.Empty;

    /// <summary>The lot.</summary>
    [Parameter] public Guid LotId { get; set; }

    [Inject] private LotDecision Decisions { get; set; } = null!;
    [Inject] private LotSearch Lots { get; set; } = null!;
    [Inject] private ISecretCheck Secrets { get; set; } = null!;
    [Inject] private IDialogService Dialogs { get; set; } = null!;

    private bool Open => evidence!.Lot.State is LotState.AwaitingResults or LotState.AwaitingDisposition or LotState.OnHold;

    /// <inheritdoc />
    protected override async Task LoadAsync()
    {
        evidence = await Decisions.ReadAsync(Actor, LotId, Leaving);
        lot = await Lots.FindAsync(Actor, LotId, Leaving);
        loaded = true;
    }

    private Task ReleaseAsync() => SignAsync("released", false, (answer, proof, hash) => Decisions.ReleaseAsync(Actor, LotId, proof, hash, Leaving));

    private Task HoldAsync() => SignAsync("held", true, (answer, proof, hash) => Decisions.HoldAsync(Actor, LotId, answer.Reason, proof, hash, Leaving));

    private Task RejectAsync() => SignAsync("rejected", true, (answer, proof, hash) => Decisions.RejectAsync(Actor, LotId, answer.Reason, proof, hash, Leaving));

    private Task ConcedeAsync() => SignAsync("released by concession", true, (answer, proof, hash) => Decisions.ConcedeAsync(Actor, LotId, answer.Reason, proof, hash, Leaving));

    private async Task SignAsync(string meaning, bool askReason, Func<SignAnswer, SecretProof, string, Task> decide)
    {
        var shownHash = evidence!.ContentHash;
        if (await Dialogs.AskToSignAsync(meaning, $"Lot {lot!.Number}, {lot.ProductCode} {lot.ProductName}, for {lot.CustomerName ?? "stock"}", askReason) is not { } answer)
        {
            return;
        }

        var done = await DoAsync(async () => await decide(answer, await Secrets.ProveAsync(Actor, answer.Secret, Leaving), shownHash), $"Lot {lot.Number} {meaning}");
        if (done || Refusal is StaleVersionException)
        {
            await LoadAsync();
        }
    }

    private async Task ProposeAsync()
    {
        if (await DoAsync(() => Decisions.ProposeConcessionAsync(Actor, LotId, proposalReason, Leaving), "Concession proposed"))
        {
            proposalReason = string.Empty;
            await LoadAsync();
        }
    }

    private static string Rules(SampleResult result) => result.Limits.All(judged => judged.Limit.Rule == LimitRule.Simple)
        ? "simple acceptance: a value on the limit conforms"
        : "the decision rule beside each verdict, simple acceptance where none is named";
}
