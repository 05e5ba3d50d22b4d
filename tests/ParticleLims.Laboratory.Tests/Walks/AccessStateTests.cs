using ParticleLims.Laboratory.People;
using ParticleLims.Laboratory.Record;
using ParticleLims.Laboratory.Terminals;
using ParticleLims.Laboratory.Tests.Record;

namespace ParticleLims.Laboratory.Tests.Walks;

/// <summary>Accounts and shared terminals by role and by state.</summary>
public sealed class AccessStateTests
{
    private const string Why = "As the notes of the day say";
    private static readonly TokenScope[] Scopes = [TokenScope.Evaluate];

    private static readonly StateDeed<AccountState>[] OfAccounts =
    [
        OfAccount("set roles", "account-disabled", async (stage, who, id, _) => await stage.Get<Accounts>().SetRolesAsync(who, id, [Role.Technician, Role.LaboratoryManager], Why, await VersionAsync<Person>(stage, id), default)),
        OfAccount("disable", "account-disabled", async (stage, who, id, _) => await stage.Get<Accounts>().DisableAsync(who, id, Why, await VersionAsync<Person>(stage, id), default)),
        OfAccount("issue a token", "account-disabled", (stage, who, id, _) => stage.Get<ApiTokens>().IssueAsync(who, id, "Line 2", Scopes, TimeSpan.FromDays(30), default)),
        OfAccount("issue a badge", "badge-not-for", (stage, who, id, _) => stage.Get<Badges>().IssueAsync(who, id, default)),
        OfAccount("issue an activation code", "activation-not-for", (stage, who, id, _) => stage.Get<Activations>().IssueAsync(who, id, Why, default)),
    ];

    private static readonly StateDeed<TerminalState>[] OfTerminals =
    [
        OfTerminal("rename", async (stage, who, id, _) => await stage.Get<TerminalRegister>().ChangeAsync(who, id, Bench(), Why, await VersionAsync<Terminal>(stage, id), default)),
        OfTerminal("withdraw", async (stage, who, id, _) => await stage.Get<TerminalRegister>().WithdrawAsync(who, id, Why, await VersionAsync<Terminal>(stage, id), default)),
    ];

    private enum AccountState
    {
        Active,
        Disabled,
    }

    private enum TerminalState
    {
        WaitingForItsCode,
        Enrolled,
        Withdrawn,
    }

    [Theory]
    [EachDatabase]
    public async Task An_account_is_kept_only_by_the_administrator_and_gets_nothing_once_it_is_disabled(DatabaseKind kind)
    {
        await using var stage = await Stage.OpenAsync(kind);
        await StateTrial.GoAsync(stage, OfAccounts, async state =>
        {
            var administrator = stage.People.Administrator.Actor;
            var id = await stage.Get<Accounts>().CreateAsync(administrator, new NewPerson("p." + Guid.NewGuid().ToString("N")[..20], "Olin Hart", [Role.Technician], "seven blue kettles sing") { Identity = SmallLaboratory.SeenInPerson }, null, default);
            if (state == AccountState.Disabled)
            {
                await stage.Get<Accounts>().DisableAsync(administrator, id, Why, 1, default);
            }

            return id;
        });
    }

    [Theory]
    [EachDatabase]
    public async Task A_terminal_is_kept_only_by_the_administrator_until_it_is_withdrawn(DatabaseKind kind)
    {
        await using var stage = await Stage.OpenAsync(kind);
        await StateTrial.GoAsync(stage, OfTerminals, async state =>
        {
            var (register, administrator, card) = (stage.Get<TerminalRegister>(), stage.People.Administrator.Actor, Bench());
            if (state == TerminalState.WaitingForItsCode)
            {
                await register.MakeCodeAsync(administrator, card, default);
                return (await register.AllAsync(administrator, default)).Single(row => row.Name == card.Name).Id;
            }

            var id = (await register.RecogniseAsync(await register.EnrolAsync(administrator, card, default), default))!.Id;
            if (state == TerminalState.Withdrawn)
            {
                await register.WithdrawAsync(administrator, id, Why, 1, default);
            }

            return id;
        });
    }

    private static TerminalCard Bench() => new("Bench " + Guid.NewGuid().ToString("N")[..20], "Sieving room", true);

    private static StateDeed<AccountState> OfAccount(string name, string otherwise, Func<Stage, Actor, Guid, SecretProof, Task> act) => new(name, Who.Administrator, [AccountState.Active], act) { Otherwise = _ => otherwise };

    private static StateDeed<TerminalState> OfTerminal(string name, Func<Stage, Actor, Guid, SecretProof, Task> act) =>
        new(name, Who.Administrator, [TerminalState.WaitingForItsCode, TerminalState.Enrolled], act) { Otherwise = _ => "terminal-withdrawn" };

    private static async Task<long> VersionAsync<T>(Stage stage, Guid id)
        where T : class, ParticleLims.Laboratory.Storage.IVersioned
    {
        await using var data = stage.Data();
        return (await data.FindAsync<T>(id))!.Version;
    }
}
