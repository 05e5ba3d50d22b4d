using ParticleLims.Laboratory.People;
using ParticleLims.Laboratory.Record;
using ParticleLims.Laboratory.Settings;
using ParticleLims.Laboratory.Today;
using static ParticleLims.Laboratory.Tests.Record.Ability;

namespace ParticleLims.Laboratory.Tests.Record;

/// <summary>What is done with people, settings and the record.</summary>
internal static class PeopleAbilities
{
    private const string Why = "Asked for in writing";
    private const string Password = "seven blue kettles sing";
    private static readonly Guid Nothing = Guid.CreateVersion7();
    private static readonly SecretProof NoProof = new(Nothing);
    private static readonly Role[] Technician = [Role.Technician];
    private static readonly TokenScope[] Scopes = [TokenScope.Evaluate];
    private static readonly RecordQuestion Anything = new();
    private static readonly DateOnly Monday = new(2026, 3, 2);
    private static readonly NewPerson Nameless = new("olin.hart", " ", [Role.Technician], Password);
    private static readonly NewPerson Olin = Nameless with { FullName = "Olin Hart" };
    private static readonly LaboratoryIdentity Identity = new("Tarnfell Milling", "Mill Lane 2\nTarnfell", "lab@tarnfell.example", "Europe/Dublin", "https://lab.tarnfell.example");

    public static IReadOnlyList<Ability> All { get; } = [.. AccountKeeping, .. Tokens, .. SigningOn, .. Settings, .. Reading];

    private static IEnumerable<Ability> AccountKeeping =>
    [
        Does("people.create", Who.Administrator, "person-incomplete", (stage, who) => stage.Get<Accounts>().CreateAsync(who, Nameless, null, default),
            stage => () => stage.Get<Accounts>().CreateAsync(Administrator(stage), Olin, "create", default)),
        Does("people.set-roles", Who.Administrator, "not-found", (stage, who) => stage.Get<Accounts>().SetRolesAsync(who, Nothing, Technician, Why, 1, default),
            stage => () => stage.Small.GiveRolesAsync(stage.People.SecondTechnician, Role.Reviewer)),
        Does("people.disable", Who.Administrator, "not-found", (stage, who) => stage.Get<Accounts>().DisableAsync(who, Nothing, Why, 1, default),
            stage => () => stage.Get<Accounts>().DisableAsync(Administrator(stage), stage.People.SecondTechnician.Id, "Has left the mill", 1, default)),
        Does("people.change-password", Who.SignedOn, "secret-not-proved", (stage, who) => stage.Get<Accounts>().ChangePasswordAsync(who, NoProof, Password, default), async stage =>
        {
            var proof = await stage.Small.ProofAsync(stage.People.Customer);
            return () => stage.Get<Accounts>().ChangePasswordAsync(stage.People.Customer.Actor, proof, Password, default);
        }),
        Reads(Who.Administrator, (stage, who) => stage.Get<Accounts>().AllAsync(who, default)),
        Reads(Who.Administrator, (stage, who) => stage.Get<Accounts>().CustomersAsync(who, default)),
    ];

    private static IEnumerable<Ability> Tokens =>
    [
        Does("people.issue-token", Who.Administrator, "not-found", (stage, who) => stage.Get<ApiTokens>().IssueAsync(who, Nothing, "Line 2", Scopes, TimeSpan.FromDays(30), default),
            stage => () => IssueAsync(stage)),
        Does("people.revoke-token", Who.Administrator, "not-found", (stage, who) => stage.Get<ApiTokens>().RevokeAsync(who, Nothing, Why, default), async stage =>
        {
            await IssueAsync(stage);
            var issued = (await stage.Get<ApiTokens>().OfPersonAsync(Administrator(stage), stage.People.Technician.Id, default)).Single();
            return () => stage.Get<ApiTokens>().RevokeAsync(Administrator(stage), issued.Id, Why, default);
        }),
        Reads(Who.Administrator, (stage, who) => stage.Get<ApiTokens>().OfPersonAsync(who, Nothing, default)),
        Reads(Who.Anybody, (stage, _) => stage.Get<ApiTokens>().RecogniseAsync("plt_nothing", "api", default)),
    ];

    private static IEnumerable<Ability> SigningOn =>
    [
        Does("people.sign-on", Who.Anybody, "secret-wrong", (stage, _) => stage.Get<SignOn>().SignOnAsync("nobody.known", "wrong", "T1", default),
            stage => () => stage.Get<SignOn>().SignOnAsync(stage.People.Technician.SignOnName, stage.People.Technician.Password, "T1", default)).WhoseRefusalIsRecorded("people.secret-refused"),
        Does("people.sign-off", Who.SignedOn, null, (stage, who) => stage.Get<SignOn>().SignOffAsync(who, default), stage => () => stage.Get<SignOn>().SignOffAsync(stage.People.Technician.Actor, default)),
        Does("people.wrong-tries-forgotten", Who.Anybody, "secret-wrong", (stage, who) => stage.Get<SignOn>().ProveAsync(who, "wrong", default), async stage =>
        {
            await Should.ThrowAsync<RefusedException>(() => stage.Get<SignOn>().ProveAsync(stage.People.Technician.Actor, "wrong", default));
            return () => stage.Small.ProofAsync(stage.People.Technician);
        }).WhoseRefusalIsRecorded("people.secret-refused"),
        Does("people.wrong-tries-forgotten", Who.Anybody, "secret-wrong", (stage, _) => stage.Get<SignOn>().ProveOtherAsync("nobody.known", "wrong", "T1", default), async stage =>
        {
            var person = stage.People.Technician;
            await Should.ThrowAsync<RefusedException>(() => stage.Get<SignOn>().ProveOtherAsync(person.SignOnName, "wrong", "T1", default));
            return () => stage.Get<SignOn>().ProveOtherAsync(person.SignOnName, person.Password, "T1", default);
        }).WhoseRefusalIsRecorded("people.secret-refused"),
        Reads(Who.Anybody, (stage, _) => stage.Get<SignOn>().IsCurrentAsync(Nothing, "stamp", default)),
    ];

    private static IEnumerable<Ability> Settings =>
    [
        Does("settings.set-up-link", Who.Program, null, (stage, _) => stage.Get<LaboratorySetUp>().MakeLinkAsync(default), stage => () => stage.Get<LaboratorySetUp>().MakeLinkAsync(default)).InAnEmptyLaboratory(),
        Does("settings.set-up", Who.Anybody, "set-up-link", (stage, _) => stage.Get<LaboratorySetUp>().OpenAsync("nothing", Identity, Olin, "T1", default), async stage =>
        {
            var link = await stage.Get<LaboratorySetUp>().MakeLinkAsync(default);
            return () => stage.Get<LaboratorySetUp>().OpenAsync(link, Identity, Olin, "T1", default);
        }).InAnEmptyLaboratory(),
        Does("settings.change-identity", Who.Administrator, "changed-meanwhile", (stage, who) => stage.Get<SettingsKeeping>().ChangeIdentityAsync(who, Identity, Why, 99, default),
            stage => () => stage.Get<SettingsKeeping>().ChangeIdentityAsync(Administrator(stage), Identity, Why, 1, default)),
        Does("settings.one-person", Who.Administrator, "changed-meanwhile", (stage, who) => stage.Get<SettingsKeeping>().SwitchOnePersonAsync(who, true, Why, 99, default),
            stage => stage.Small.SwitchOnePersonAsync),
        Does("settings.keying", Who.Administrator, "changed-meanwhile", (stage, who) => stage.Get<SettingsKeeping>().SwitchKeyingAsync(who, true, Why, 99, default),
            stage => stage.Small.AllowKeyingAsync),
        Reads(Who.Anybody, (stage, _) => stage.Get<LaboratorySetUp>().IsDoneAsync(default)),
        Reads(Who.Anybody, (stage, _) => stage.Get<LaboratorySetUp>().IsLinkGoodAsync("nothing", default)),
        Reads(Who.Anybody, (stage, _) => stage.Get<SettingsKeeping>().FindAsync(default)),
    ];

    private static IEnumerable<Ability> Reading =>
    [
        Reads(Who.Auditors, (stage, who) => stage.Get<RecordReading>().FindAsync(who, Anything, 0, 10, default)),
        Reads(Who.Auditors, (stage, who) => stage.Get<RecordReading>().VerifyAsync(who, default)),
        Reads(Who.Staff, (stage, who) => stage.Get<TodayReading>().BoardAsync(who, Monday, default)),
    ];

    private static Task<string> IssueAsync(Stage stage) => stage.Get<ApiTokens>().IssueAsync(Administrator(stage), stage.People.Technician.Id, "Line 2", Scopes, TimeSpan.FromDays(30), default);

    private static Actor Administrator(Stage stage) => stage.People.Administrator.Actor;
}
