using Microsoft.AspNetCore.Components;
using ParticleLims.Laboratory.Record;
using ParticleLims.Laboratory.Runs;

namespace ParticleLims.Web.Runs;

/// <summary>The runs that go on and those that wait, for the terminal at the bench.</summary>
public sealed partial class BenchPage
{
    private const int MostShown = 60;

    private List<RunRow> going = [];
    private List<RunRow> planned = [];
    private IReadOnlyList<BalanceChoice> balances = [];
    private string? checkSaid;
    private IDisposable? following;

    [Inject] private RunReading Reading { get; set; } = null!;

    [Inject] private RunChoosing Choosing { get; set; } = null!;

    [Inject] private RunChanges Changes { get; set; } = null!;

    /// <inheritdoc />
    protected override async Task LoadAsync()
    {
        var rows = await Reading.InStatesAsync(Actor, [RunState.InProgress, RunState.Returned], MostShown, Leaving);
        going = [.. rows.OrderByDescending(IsMine).ThenByDescending(row => row.StartedAt)];
        planned = await Reading.InStatesAsync(Actor, [RunState.Planned], MostShown, Leaving);
        balances = await Choosing.BalancesAsync(Actor, Leaving);
    }

    /// <inheritdoc />
    protected override void OnAfterRender(bool firstRender)
    {
        if (firstRender)
        {
            following = Changes.Subscribe(null, () => _ = InvokeAsync(RefreshAsync));
        }
    }

    /// <inheritdoc />
    protected override void Dispose(bool disposing)
    {
        if (disposing)
        {
            following?.Dispose();
        }

        base.Dispose(disposing);
    }

    private bool IsMine(RunRow row) => row.StartedById == By.PersonId;

    private string Who(RunRow row) => IsMine(row) ? $"yours, started {Clock.Moment(row.StartedAt)}." : $"started by {row.StartedByName}, {Clock.Moment(row.StartedAt)}.";

    private async Task RefreshAsync()
    {
        try
        {
            await LoadAsync();
            StateHasChanged();
        }
        catch (Exception over) when (over is OperationCanceledException or ObjectDisposedException)
        {
            // The page was left meanwhile.
        }
    }

    private async Task CheckedAsync(bool passed)
    {
        checkSaid = passed ? "The daily check passed; the balance may be used today." : null;
        Refusal = passed ? null : new RefusedException("check-failed", "The daily check failed. The balance is out of service now; take another one, the laboratory manager can put it back.");
        await LoadAsync();
    }

    private void OpenCode(string wanted)
    {
        var found = going.Concat(planned).Where(row => Is(row.SampleCode, wanted) || Is(row.Number, wanted) || Is(row.LotNumber, wanted)).ToList();
        if (found.Count > 0)
        {
            Navigation.NavigateTo($"/bench/{found[0].Id}");
            return;
        }

        Refusal = new RefusedException("code-unknown", $"No run in progress or planned belongs to “{wanted}”. Look at the label again; a sample has to be booked in first.", "code");
    }

    private static bool Is(string one, string other) => string.Equals(one, other, StringComparison.OrdinalIgnoreCase);
}
