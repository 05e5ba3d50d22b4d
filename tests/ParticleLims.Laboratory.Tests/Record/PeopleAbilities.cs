using OtpNet;
using ParticleLims.Laboratory.People;
using ParticleLims.Laboratory.Terminals;
using ParticleLims.Laboratory.Record;
using ParticleLims.Laboratory.Settings;
using ParticleLims.Laboratory.Signatures;
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
    private static readonly PasskeyPlace Here = new(new Uri("https://lab.tarnfell.example"));
    private static readonly byte[] Credential = [1, 1, 2, 3, 5, 8];
    private static readonly DateOnly Monday = new(2026, 3, 2);
    private static readonly NewPerson Nameless = new("olin.hart", " ", [Role.Technician], Password);
    private static readonly NewPerson Olin = Nameless with { FullName = "Olin Hart" };
    private static readonly TerminalCard Bench = new("Bench 1", "Sieving room", true);
    private static readonly TerminalCard Placeless = Bench with { Place = " " };
    private static readonly LaboratoryIdentity Identity = new("Tarnfell Milling", "Mill Lane 2\nTarnfell", "lab@tarnfell.example", "Europe/Dublin", "https://lab.tarnfell.example");

    public static IReadOnlyList<Ability> All { get; } = [.. AccountKeeping, .. Tokens, .. SigningOn, .. Badging, .. Factors, .. Sessions, .. Terminals, .. Settings, .. Reading];

    private static IEnumerable<Ability> AccountKeeping =>
    [
        Does("people.create", Who.Administrator, "person-incomplete", (stage, who) => stage.Get<Accounts>().CreateAsync(who, Nameless, null, default),
            stage => () => stage.Get<Accounts>().CreateAsync(Administrator(stage), Olin, "create", default)),
        Does("people.set-roles", Who.Administrator, "not-found", (stage, who) => stage.Get<Accounts>().SetRolesAsync(who, Nothing, Technician, Why, 1, default),
            async stage =>
        {
            await stage.Get<Accounts>().CheckIdentityAsync(Administrator(stage), stage.People.SecondTechnician.Id, SmallLaboratory.SeenInPerson, default);
            return () => stage.Small.GiveRolesAsync(stage.People.SecondTechnician, Role.Reviewer);
        }),
        Does("people.disable", Who.Administrator, "not-found", (stage, who) => stage.Get<Accounts>().DisableAsync(who, Nothing, Why, 1, default),
            stage => () => stage.Get<Accounts>().DisableAsync(Administrator(stage), stage.People.SecondTechnician.Id, "Has left the mill", 1, default)),
        Does("people.change-password", Who.SignedOn, "secret-not-proved", (stage, who) => stage.Get<Accounts>().ChangePasswordAsync(who, NoProof, Password, default), async stage =>
        {
            var proof = await stage.Small.ProofAsync(stage.People.Customer);
            return () => stage.Get<Accounts>().ChangePasswordAsync(stage.People.Customer.Actor, proof, Password, default);
        }),
        Does("people.set-pin", Who.SignedOn, "secret-not-proved", (stage, who) => stage.Get<Accounts>().SetPinAsync(who, NoProof, "482913", default), async stage =>
        {
            var proof = await stage.Small.ProofAsync(stage.People.Technician);
            return () => stage.Get<Accounts>().SetPinAsync(stage.People.Technician.Actor, proof, "482913", default);
        }),
        Does("people.check-identity", Who.Administrator, "not-found", (stage, who) => stage.Get<Accounts>().CheckIdentityAsync(who, Nothing, SmallLaboratory.SeenInPerson, default),
            stage => () => stage.Get<Accounts>().CheckIdentityAsync(Administrator(stage), stage.People.Technician.Id, SmallLaboratory.SeenInPerson, default)),
        Reads(Who.Administrator, (stage, who) => stage.Get<Accounts>().IdentityChecksAsync(who, Nothing, default)),
        Does("signatures.accept-policy", Who.SignedOn, "secret-not-proved", (stage, who) => stage.Get<SigningPolicies>().AcceptAsync(who, "1.0", NoProof, default), async stage =>
        {
            var proof = await stage.Small.ProofAsync(stage.People.Customer);
            return () => stage.Get<SigningPolicies>().AcceptAsync(stage.People.Customer.Actor, "1.0", proof, default);
        }),
        Does("signatures.change-policy", Who.Administrator, "changed-meanwhile", (stage, who) => stage.Get<SigningPolicies>().ChangeAdditionAsync(who, "Two keys each", Why, "0.9", default),
            stage => () => stage.Get<SigningPolicies>().ChangeAdditionAsync(Administrator(stage), "Two keys each", Why, "1.0", default)),
        Reads(Who.Anybody, (stage, who) => stage.Get<SigningPolicies>().FindAsync(default)),
        Reads(Who.Anybody, (stage, who) => stage.Get<SigningPolicies>().OpenAsync(who, default)),
        Reads(Who.Anybody, (stage, who) => stage.Get<Accounts>().HasPinAsync(who, default)),
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
        Does("people.sign-on", Who.Anybody, "secret-wrong", (stage, _) => stage.Get<SignOn>().SignOnAsync("nobody.known", "wrong", new TerminalSeen("T1"), default),
            stage => () => stage.Get<SignOn>().SignOnAsync(stage.People.Technician.SignOnName, stage.People.Technician.Password, new TerminalSeen("T1"), default)).WhoseRefusalIsRecorded("people.secret-refused"),
        Does("people.sign-off", Who.SignedOn, "no-session", (stage, who) => stage.Get<SignOn>().SignOffAsync(who, default), stage => InSessionAsync(stage, stage.Get<SignOn>().SignOffAsync)),
        Does("people.wrong-tries-forgotten", Who.Anybody, "secret-wrong", (stage, who) => stage.Get<SignOn>().ProveAsync(who, "wrong", default), async stage =>
        {
            await Should.ThrowAsync<RefusedException>(() => stage.Get<SignOn>().ProveAsync(stage.People.Technician.Actor, "wrong", default));
            return () => stage.Small.ProofAsync(stage.People.Technician);
        }).WhoseRefusalIsRecorded("people.secret-refused"),
        Does("people.wrong-tries-forgotten", Who.Anybody, "secret-wrong", (stage, _) => stage.Get<SignOn>().ProveOtherAsync("nobody.known", "wrong", Actor.Unknown("T1"), default), async stage =>
        {
            var person = stage.People.Technician;
            await Should.ThrowAsync<RefusedException>(() => stage.Get<SignOn>().ProveOtherAsync(person.SignOnName, "wrong", Actor.Unknown("T1"), default));
            return () => stage.Get<SignOn>().ProveOtherAsync(person.SignOnName, person.Password, Actor.Unknown("T1"), default);
        }).WhoseRefusalIsRecorded("people.secret-refused"),
    ];

    private static IEnumerable<Ability> Badging =>
    [
        Does("people.issue-badge", Who.Administrator, "not-found", (stage, who) => stage.Get<Badges>().IssueAsync(who, Nothing, default),
            stage => () => stage.Get<Badges>().IssueAsync(Administrator(stage), stage.People.Technician.Id, default)),
        Does("people.revoke-badge", Who.Administrator, "not-found", (stage, who) => stage.Get<Badges>().RevokeAsync(who, Nothing, Why, default), async stage =>
        {
            await stage.Get<Badges>().IssueAsync(Administrator(stage), stage.People.Technician.Id, default);
            var badge = (await stage.Get<Badges>().OfPersonAsync(Administrator(stage), stage.People.Technician.Id, default)).Single();
            return () => stage.Get<Badges>().RevokeAsync(Administrator(stage), badge.Id, Why, default);
        }),
        Reads(Who.Administrator, (stage, who) => stage.Get<Badges>().OfPersonAsync(who, Nothing, default)),
        Does("people.badge-refused", Who.Anybody, "terminal-not-enrolled", (stage, _) => stage.Get<PinSignOn>().ReadBadgeAsync(new TerminalSeen("T1"), "XXXX", default), async stage =>
        {
            var bench = await stage.Small.EnrolAsync("Bench 1");
            return () => Should.ThrowAsync<RefusedException>(() => stage.Get<PinSignOn>().ReadBadgeAsync(bench.Seen, "XXXX", default));
        }),
        Does("people.sign-on-with-pin", Who.Anybody, "terminal-not-enrolled", (stage, _) => stage.Get<PinSignOn>().SignOnAsync(new TerminalSeen("T1"), Nothing, null, "482913", default), async stage =>
        {
            var bench = await stage.Small.EnrolAsync("Bench 1");
            await stage.Small.SetPinAsync(stage.People.Technician, "482913");
            return () => bench.SignOnAsync(stage.People.Technician, "482913");
        }),
        Reads(Who.Anybody, (stage, _) => stage.Get<PinSignOn>().TilesAsync(new TerminalSeen("T1"), default)),
    ];

    private static IEnumerable<Ability> Factors =>
    [
        Does("people.make-code-key", Who.SignedOn, "secret-not-proved", (stage, who) => stage.Get<SecondFactors>().MakeCodeKeyAsync(who, NoProof, default), async stage =>
        {
            var proof = await stage.Small.ProofAsync(stage.People.Customer);
            return () => stage.Get<SecondFactors>().MakeCodeKeyAsync(stage.People.Customer.Actor, proof, default);
        }),
        Does("people.confirm-code-key", Who.SignedOn, "no-code-key", (stage, who) => stage.Get<SecondFactors>().ConfirmCodeKeyAsync(who, "000000", default), async stage =>
        {
            var key = (await stage.Get<SecondFactors>().MakeCodeKeyAsync(stage.People.Customer.Actor, await stage.Small.ProofAsync(stage.People.Customer), default)).Key;
            return () => stage.Get<SecondFactors>().ConfirmCodeKeyAsync(stage.People.Customer.Actor, Code(stage, key), default);
        }),
        Does("people.renew-recovery-codes", Who.SignedOn, "secret-not-proved", (stage, who) => stage.Get<SecondFactors>().RenewRecoveryCodesAsync(who, NoProof, default), async stage =>
        {
            await CodesAsync(stage);
            var proof = await stage.Small.ProofAsync(stage.People.Technician);
            return () => stage.Get<SecondFactors>().RenewRecoveryCodesAsync(stage.People.Technician.Actor, proof, default);
        }),
        Does("people.remove-code-key", Who.SignedOn, "secret-not-proved", (stage, who) => stage.Get<SecondFactors>().RemoveCodeKeyAsync(who, NoProof, default), async stage =>
        {
            await CodesAsync(stage);
            var proof = await stage.Small.ProofAsync(stage.People.Technician);
            return () => stage.Get<SecondFactors>().RemoveCodeKeyAsync(stage.People.Technician.Actor, proof, default);
        }),
        Does("people.take-away-second-factors", Who.Administrator, "not-found", (stage, who) => stage.Get<SecondFactors>().TakeAwayAsync(who, Nothing, Why, default), async stage =>
        {
            await CodesAsync(stage);
            return () => stage.Get<SecondFactors>().TakeAwayAsync(Administrator(stage), stage.People.Technician.Id, Why, default);
        }),
        Does("people.demand-second-factor", Who.Administrator, "changed-meanwhile", (stage, who) => stage.Get<SecondFactors>().ChangeDemandAsync(who, false, Why, 99, default),
            stage => () => stage.Get<SecondFactors>().ChangeDemandAsync(Administrator(stage), false, Why, 0, default)),
        Reads(Who.Anybody, (stage, who) => stage.Get<SecondFactors>().MineAsync(who, default)),
        Reads(Who.Administrator, (stage, who) => stage.Get<SecondFactors>().OfPersonAsync(who, Nothing, default)),
        Reads(Who.Anybody, (stage, who) => stage.Get<SecondFactors>().DemandAsync(default)),
        Does("people.sign-on-with-code", Who.Anybody, "first-step-missing", (stage, _) => stage.Get<SecondStep>().FinishAsync("nothing", "000000", new TerminalSeen("T1"), default), async stage =>
        {
            var (person, recovery) = (stage.People.Technician, await CodesAsync(stage));
            var handle = (await Should.ThrowAsync<SecondStepException>(() => stage.Get<SignOn>().SignOnAsync(person.SignOnName, person.Password, new TerminalSeen("T1"), default))).Handle;
            return () => stage.Get<SecondStep>().FinishAsync(handle, recovery[0], new TerminalSeen("T1"), default);
        }),
        Does("people.ask-passkey", Who.SignedOn, "secret-not-proved", (stage, who) => stage.Get<Passkeys>().AskNewAsync(who, NoProof, Here, default), async stage =>
        {
            var proof = await stage.Small.ProofAsync(stage.People.Customer);
            return () => stage.Get<Passkeys>().AskNewAsync(stage.People.Customer.Actor, proof, Here, default);
        }),
        Does("people.add-passkey", Who.SignedOn, "passkey-old", (stage, who) => stage.Get<Passkeys>().AddAsync(who, new GivenPasskey("nothing", "{}"), "Key ring", default), async stage =>
        {
            var answer = await NewPasskeyAsync(stage);
            return () => stage.Get<Passkeys>().AddAsync(stage.People.Technician.Actor, answer, "Key ring", default);
        }),
        Does("people.remove-passkey", Who.SignedOn, "secret-not-proved", (stage, who) => stage.Get<Passkeys>().RemoveAsync(who, NoProof, Nothing, default), async stage =>
        {
            await stage.Get<Passkeys>().AddAsync(stage.People.Technician.Actor, await NewPasskeyAsync(stage), "Key ring", default);
            var one = (await stage.Get<SecondFactors>().MineAsync(stage.People.Technician.Actor, default)).Passkeys.Single();
            var proof = await stage.Small.ProofAsync(stage.People.Technician);
            return () => stage.Get<Passkeys>().RemoveAsync(stage.People.Technician.Actor, proof, one.Id, default);
        }),
        Reads(Who.Anybody, (stage, who) => stage.Get<Passkeys>().HasAsync(who, default)),
        Reads(Who.Anybody, (stage, _) => stage.Get<Passkeys>().AskAsync(Here, default)),
        Reads(Who.Anybody, (stage, who) => stage.Get<Passkeys>().AskOwnAsync(who, Here, default)),
        Does("people.sign-on-with-passkey", Who.Anybody, "passkey-old", (stage, _) => stage.Get<Passkeys>().SignOnAsync(new GivenPasskey("nothing", "{}"), new TerminalSeen("T1"), default), async stage =>
        {
            await stage.Get<Passkeys>().AddAsync(stage.People.Technician.Actor, await NewPasskeyAsync(stage), "Key ring", default);
            var question = await stage.Get<Passkeys>().AskAsync(Here, default);
            return () => stage.Get<Passkeys>().SignOnAsync(new GivenPasskey(question.Handle, PlainBrowser.Answer(question, Credential, 2)), new TerminalSeen("T1"), default);
        }),
        Does("people.issue-activation", Who.Administrator, "not-found", (stage, who) => stage.Get<Activations>().IssueAsync(who, Nothing, Why, default),
            stage => () => stage.Get<Activations>().IssueAsync(Administrator(stage), stage.People.Technician.Id, Why, default)),
        Does("people.issue-activation-at-console", Who.Program, "not-found", (stage, _) => stage.Get<Activations>().IssueAtConsoleAsync("nobody.known", default),
            stage => () => stage.Get<Activations>().IssueAtConsoleAsync(stage.People.Administrator.SignOnName, default)),
        Does("people.activate", Who.Anybody, "activation-wrong", (stage, _) => stage.Get<Activations>().UseAsync("nobody.known", "XXXX", Password, new TerminalSeen("T1"), default), async stage =>
        {
            var issued = await stage.Get<Activations>().IssueAsync(Administrator(stage), stage.People.Technician.Id, Why, default);
            return () => stage.Get<Activations>().UseAsync(issued.SignOnName, issued.Code, Password, new TerminalSeen("T1"), default);
        }).WhoseRefusalIsRecorded("people.secret-refused"),
        Does("people.confirm-activation", Who.QualityManager | Who.Administrator, "not-found", (stage, who) => stage.Get<Activations>().ConfirmAsync(who, Nothing, default), async stage =>
        {
            var issued = await stage.Get<Activations>().IssueAsync(Administrator(stage), stage.People.Technician.Id, Why, default);
            await stage.Get<Activations>().UseAsync(issued.SignOnName, issued.Code, Password, new TerminalSeen("T1"), default);
            var one = (await stage.Get<Activations>().AllAsync(Administrator(stage), stage.People.Technician.Id, default)).Single();
            return () => stage.Get<Activations>().ConfirmAsync(stage.People.QualityManager.Actor, one.Id, default);
        }),
        Reads(Who.QualityManager | Who.Administrator, (stage, who) => stage.Get<Activations>().AllAsync(who, null, default)),
    ];

    private static IEnumerable<Ability> Sessions =>
    [
        Does("people.lock", Who.SignedOn, "no-session", (stage, who) => stage.Get<Sessions>().LockAsync(who, default), stage => InSessionAsync(stage, stage.Get<Sessions>().LockAsync)),
        Does("people.hand-over", Who.SignedOn, "no-session", (stage, who) => stage.Get<Sessions>().HandOverAsync(who, default), stage => InSessionAsync(stage, stage.Get<Sessions>().HandOverAsync)),
        Does("people.session-to-terminal", Who.SignedOn, "no-session", (stage, who) => stage.Get<Sessions>().EndEnrolledAsync(who, default), stage => InSessionAsync(stage, stage.Get<Sessions>().EndEnrolledAsync)),
        Does("people.lock-idle", Who.Program, "not-found", (stage, _) => stage.Get<Sessions>().LockIdleAsync(Nothing, default),
            stage => InSessionAsync(stage, (actor, token) => stage.Get<Sessions>().LockIdleAsync(actor.SessionId!.Value, token))),
        Reads(Who.Anybody, (stage, _) => stage.Get<Sessions>().LookAsync(Nothing, default)),
        Reads(Who.Anybody, (stage, _) => stage.Get<Sessions>().LastAtAsync(new TerminalSeen("T1"), default)),
        Reads(Who.Administrator, (stage, who) => stage.Get<Sessions>().LastUsesAsync(who, default)),
    ];

    private static IEnumerable<Ability> Terminals =>
    [
        Does("terminals.enrol", Who.Administrator, "terminal-incomplete", (stage, who) => stage.Get<TerminalRegister>().EnrolAsync(who, Placeless, default),
            stage => () => stage.Get<TerminalRegister>().EnrolAsync(Administrator(stage), Bench, default)),
        Does("terminals.make-code", Who.Administrator, "terminal-incomplete", (stage, who) => stage.Get<TerminalRegister>().MakeCodeAsync(who, Placeless, default),
            stage => () => stage.Get<TerminalRegister>().MakeCodeAsync(Administrator(stage), Bench, default)),
        Does("terminals.enrol-by-code", Who.Anybody, "terminal-code", (stage, _) => stage.Get<TerminalRegister>().EnrolByCodeAsync("XXXX", new TerminalSeen("T1"), default), async stage =>
        {
            var code = await stage.Get<TerminalRegister>().MakeCodeAsync(Administrator(stage), Bench, default);
            return () => stage.Get<TerminalRegister>().EnrolByCodeAsync(code, new TerminalSeen("T1"), default);
        }),
        Does("terminals.change", Who.Administrator, "not-found", (stage, who) => stage.Get<TerminalRegister>().ChangeAsync(who, Nothing, Bench, Why, 1, default), async stage =>
        {
            var bench = await stage.Small.EnrolAsync("Bench 9");
            return () => stage.Get<TerminalRegister>().ChangeAsync(Administrator(stage), bench.Seen.Id!.Value, Bench, Why, 1, default);
        }),
        Does("terminals.withdraw", Who.Administrator, "not-found", (stage, who) => stage.Get<TerminalRegister>().WithdrawAsync(who, Nothing, Why, 1, default), async stage =>
        {
            var bench = await stage.Small.EnrolAsync("Bench 9");
            return () => stage.Get<TerminalRegister>().WithdrawAsync(Administrator(stage), bench.Seen.Id!.Value, Why, 1, default);
        }),
        Reads(Who.Administrator, (stage, who) => stage.Get<TerminalRegister>().AllAsync(who, default)),
        Reads(Who.Anybody, (stage, _) => stage.Get<TerminalRegister>().RecogniseAsync("nothing", default)),
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
        Does("settings.one-person", Who.Administrator, "changed-meanwhile", (stage, who) => stage.Get<SettingsKeeping>().SwitchOnePersonAsync(who, true, Why, NoProof, 99, default),
            stage => () => stage.Small.SwitchOnePersonAsync()),
        Does("settings.keying", Who.Administrator, "changed-meanwhile", (stage, who) => stage.Get<SettingsKeeping>().SwitchKeyingAsync(who, true, Why, 99, default),
            stage => stage.Small.AllowKeyingAsync),
        Does("settings.investigations", Who.Administrator, "changed-meanwhile", (stage, who) => stage.Get<SettingsKeeping>().ChangeInvestigationDaysAsync(who, 10, Why, 99, default),
            stage => () => stage.Get<SettingsKeeping>().ChangeInvestigationDaysAsync(Administrator(stage), 10, Why, 1, default)),
        Does("settings.terminals", Who.Administrator, "changed-meanwhile", (stage, who) => stage.Get<SettingsKeeping>().ChangeTerminalRulesAsync(who, new TerminalRules(true, 3), Why, 99, default),
            stage => () => stage.Get<SettingsKeeping>().ChangeTerminalRulesAsync(Administrator(stage), new TerminalRules(true, 3), Why, 1, default)),
        Reads(Who.Anybody, (stage, _) => stage.Get<LaboratorySetUp>().IsDoneAsync(default)),
        Reads(Who.Anybody, (stage, _) => stage.Get<LaboratorySetUp>().IsLinkGoodAsync("nothing", default)),
        Reads(Who.Anybody, (stage, _) => stage.Get<SettingsKeeping>().FindAsync(default)),
    ];

    private static IEnumerable<Ability> Reading =>
    [
        Reads(Who.Auditors, (stage, who) => stage.Get<RecordReading>().FindAsync(who, Anything, 0, 10, default)),
        Reads(Who.Auditors, (stage, who) => stage.Get<RecordReading>().InspectAsync(who, default)),
        Does("record.export", Who.Auditors, null, (stage, who) => stage.Get<RecordExporting>().NoteTrailAsync(who, "CSV", "everything", default),
            stage => () => stage.Get<RecordExporting>().NoteTrailAsync(stage.People.Reviewer.Actor, "CSV", "everything", default)),
        Does("record.export-register", Who.Staff, null, (stage, who) => stage.Get<RecordExporting>().NoteRegisterAsync(who, "equipment.xlsx", default),
            stage => () => stage.Get<RecordExporting>().NoteRegisterAsync(stage.People.Technician.Actor, "equipment.xlsx", default)),
        Reads(Who.Staff, (stage, who) => stage.Get<SignatureReading>().OfAsync(who, Nothing, default)),
        Reads(Who.Staff, (stage, who) => stage.Get<TodayReading>().BoardAsync(who, Monday, default)),
    ];

    private static async Task<Func<Task>> InSessionAsync(Stage stage, Func<Actor, CancellationToken, Task> act)
    {
        var person = stage.People.Technician;
        var signedOn = await stage.Get<SignOn>().SignOnAsync(person.SignOnName, person.Password, new TerminalSeen("T1"), default);
        return () => act(new Actor(person.Id, "T1", signedOn.SessionId), default);
    }

    private static string Code(Stage stage, string key) => new Totp(Base32Encoding.ToBytes(key)).ComputeTotp(stage.Get<TimeProvider>().GetUtcNow().UtcDateTime);

    private static async Task<IReadOnlyList<string>> CodesAsync(Stage stage)
    {
        var (person, factors) = (stage.People.Technician, stage.Get<SecondFactors>());
        var key = (await factors.MakeCodeKeyAsync(person.Actor, await stage.Small.ProofAsync(person), default)).Key;
        return await factors.ConfirmCodeKeyAsync(person.Actor, Code(stage, key), default);
    }

    private static async Task<GivenPasskey> NewPasskeyAsync(Stage stage)
    {
        var question = await stage.Get<Passkeys>().AskNewAsync(stage.People.Technician.Actor, await stage.Small.ProofAsync(stage.People.Technician), Here, default);
        return new GivenPasskey(question.Handle, PlainBrowser.Answer(question, Credential, 1));
    }

    private static Task<string> IssueAsync(Stage stage) => stage.Get<ApiTokens>().IssueAsync(Administrator(stage), stage.People.Technician.Id, "Line 2", Scopes, TimeSpan.FromDays(30), default);

    private static Actor Administrator(Stage stage) => stage.People.Administrator.Actor;
}
