using ParticleLims.Laboratory.People;
using ParticleLims.Laboratory.Record;

namespace ParticleLims.Laboratory.Tests.People;

/// <summary>Nobody but the person knows a password, and whoever issues a code cannot sign with it unseen.</summary>
public sealed class ActivationTests
{
    private const string Chosen = "nine slow barges turn west";

    [Theory]
    [EachDatabase]
    public async Task A_new_account_opens_only_with_the_password_that_its_owner_sets(DatabaseKind kind)
    {
        await using var laboratory = await OpenedSmallLaboratory.OpenAsync(kind);
        var (administrator, activations) = (laboratory.Small.People.Administrator.Actor, laboratory.Get<Activations>());
        var id = await laboratory.Get<Accounts>().CreateAsync(administrator, new NewPerson("olin.hart", "Olin Hart", [Role.Technician]), null, default);
        await SecondFactorDesk.ShouldRefuseAsync("secret-wrong", () => SignOnAsync(laboratory, "olin.hart", string.Empty));
        var issued = await activations.IssueAsync(administrator, id, "Begins on Monday", default);
        await SecondFactorDesk.ShouldRefuseAsync("activation-wrong", () => activations.UseAsync("olin.hart", "BCDEF", Chosen, SecondFactorDesk.Office, default));
        await SecondFactorDesk.ShouldRefuseAsync("activation-wrong", () => activations.UseAsync("nobody.known", issued.Code, Chosen, SecondFactorDesk.Office, default));
        await laboratory.ShouldRefuseAsync("password-length", () => activations.UseAsync("olin.hart", issued.Code, "too short", SecondFactorDesk.Office, default));
        await activations.UseAsync("Olin.Hart", $"{issued.Code[..10]} {issued.Code[10..].ToLowerInvariant()}", Chosen, SecondFactorDesk.Office, default);
        await SignOnAsync(laboratory, "olin.hart", Chosen);
        await SecondFactorDesk.ShouldRefuseAsync("activation-wrong", () => activations.UseAsync("olin.hart", issued.Code, "another long one to try", SecondFactorDesk.Office, default));
        (await activations.AllAsync(administrator, id, default)).Single().Waits.ShouldBeFalse("nobody could have signed under this name before");
    }

    [Theory]
    [EachDatabase]
    public async Task A_code_is_good_for_three_days_and_a_later_one_ends_it(DatabaseKind kind)
    {
        await using var laboratory = await OpenedSmallLaboratory.OpenAsync(kind);
        var (people, activations) = (laboratory.Small.People, laboratory.Get<Activations>());
        var first = await activations.IssueAsync(people.Administrator.Actor, people.Technician.Id, "Forgot it over the holidays", default);
        var second = await activations.IssueAsync(people.Administrator.Actor, people.Technician.Id, "The first was lost too", default);
        await SecondFactorDesk.ShouldRefuseAsync("activation-wrong", () => activations.UseAsync(people.Technician.SignOnName, first.Code, Chosen, SecondFactorDesk.Office, default));
        laboratory.Running.Clock.Advance(Activation.Lasts);
        await SecondFactorDesk.ShouldRefuseAsync("activation-wrong", () => activations.UseAsync(people.Technician.SignOnName, second.Code, Chosen, SecondFactorDesk.Office, default));
    }

    [Theory]
    [EachDatabase]
    public async Task After_a_reset_the_account_signs_nothing_until_a_second_person_has_confirmed_who_it_was(DatabaseKind kind)
    {
        await using var laboratory = await OpenedSmallLaboratory.OpenAsync(kind);
        var (people, activations, secrets) = (laboratory.Small.People, laboratory.Get<Activations>(), laboratory.Get<ISecretCheck>());
        var (administrator, technician) = (people.Administrator.Actor, people.Reviewer);
        var running = new Actor(technician.Id, "Office", (await SignOnAsync(laboratory, technician.SignOnName, technician.Password)).SessionId);
        var issued = await activations.IssueAsync(administrator, technician.Id, "Forgot it over the holidays", default);
        await laboratory.ShouldRefuseAsync("session-over", () => laboratory.Get<SecondFactors>().MineAsync(running, default));
        await SecondFactorDesk.ShouldRefuseAsync("secret-wrong", () => SignOnAsync(laboratory, technician.SignOnName, technician.Password));
        await activations.UseAsync(technician.SignOnName, issued.Code, Chosen, SecondFactorDesk.Office, default);

        (await secrets.ProveAsync(technician.Actor, Chosen, default)).NotYet!.Code.ShouldBe("activation-not-confirmed");
        var waiting = (await activations.AllAsync(people.QualityManager.Actor, null, default)).Single(one => one.Waits);
        await laboratory.ShouldRefuseAsync("second-person", () => activations.ConfirmAsync(administrator, waiting.Id, default));
        await activations.ConfirmAsync(people.QualityManager.Actor, waiting.Id, default);
        (await secrets.ProveAsync(technician.Actor, Chosen, default)).NotYet.ShouldBeNull();
        await laboratory.ShouldRefuseAsync("activation-not-waiting", () => activations.ConfirmAsync(people.QualityManager.Actor, waiting.Id, default));
    }

    [Theory]
    [EachDatabase]
    public async Task Nobody_resets_the_own_account_nor_a_disabled_one(DatabaseKind kind)
    {
        await using var laboratory = await OpenedSmallLaboratory.OpenAsync(kind);
        var (people, activations) = (laboratory.Small.People, laboratory.Get<Activations>());
        await laboratory.ShouldRefuseAsync("activation-not-for", () => activations.IssueAsync(people.Administrator.Actor, people.Administrator.Id, "Forgot it", default));
        await laboratory.Get<Accounts>().DisableAsync(people.Administrator.Actor, people.SecondTechnician.Id, "Has left the mill", 1, default);
        await laboratory.ShouldRefuseAsync("activation-not-for", () => activations.IssueAsync(people.Administrator.Actor, people.SecondTechnician.Id, "Came back", default));
    }

    private static Task<SignedOn> SignOnAsync(OpenedSmallLaboratory laboratory, string name, string password) => laboratory.Get<SignOn>().SignOnAsync(name, password, SecondFactorDesk.Office, default);
}
