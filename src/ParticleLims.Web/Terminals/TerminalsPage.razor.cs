using ParticleLims.Laboratory.People;
using ParticleLims.Laboratory.Terminals;
using ParticleLims.Web.Controls;

namespace ParticleLims.Web.Terminals;

/// <summary>The shared terminals: makes codes for them, renames and withdraws them.</summary>
public sealed partial class TerminalsPage
{
    private List<TerminalRow>? terminals;
    private Dictionary<Guid, LastUse> uses = [];
    private TerminalRow? changed;
    private string? newCode;
    private string name = string.Empty;
    private string place = string.Empty;
    private bool hasScanner;

    private string CodeInGroups => $"{newCode![..5]}-{newCode[5..]}";

    private TerminalCard Card => new(name, place, hasScanner);

    /// <inheritdoc />
    protected override async Task LoadAsync()
    {
        terminals = await Register.AllAsync(Actor, Leaving);
        uses = (await Sessions.LastUsesAsync(Actor, Leaving)).ToDictionary(use => use.TerminalId);
    }

    private static string StateOf(TerminalRow row) => row switch
    {
        { WithdrawnAt: not null } => "withdrawn",
        { EnrolledAt: not null } => "enrolled",
        _ => "code until",
    };

    private static string KindOf(TerminalRow row) => row switch { { WithdrawnAt: not null } => "off", { EnrolledAt: not null } => "good", _ => "wait" };

    private string LastUseOf(TerminalRow row) => uses.TryGetValue(row.Id, out var use) ? $"{Clock.Moment(use.At)}, {use.PersonName}{(use.GoesOn && row.WithdrawnAt is null ? " (signed on)" : null)}" : "never";

    private void Change(TerminalRow row) => (changed, name, place, hasScanner) = (row, row.Name, row.Place, row.HasScanner);

    private void Clear() => (changed, name, place, hasScanner) = (null, string.Empty, string.Empty, false);

    private async Task MakeCodeAsync()
    {
        if (await DoAsync(async () => newCode = await Register.MakeCodeAsync(Actor, Card, Leaving)))
        {
            Clear();
            await LoadAsync();
        }
    }

    private async Task SaveAsync()
    {
        if (await Dialogs.AskReasonAsync($"Change {changed!.Name}", "What is done there from now on carries the new name; what was done before keeps the old one.") is { } reason
            && await DoAsync(() => Register.ChangeAsync(Actor, changed.Id, Card, reason, changed.Version, Leaving), "Saved"))
        {
            Clear();
            await LoadAsync();
        }
    }

    private async Task WithdrawAsync(TerminalRow row)
    {
        if (await Dialogs.AskReasonAsync($"Withdraw {row.Name}", "Whoever is signed on there is signed off within seconds. Runs go on at any other terminal.") is { } reason
            && await DoAsync(() => Register.WithdrawAsync(Actor, row.Id, reason, row.Version, Leaving), "Withdrawn"))
        {
            await LoadAsync();
        }
    }
}
