using Microsoft.EntityFrameworkCore;
using ParticleLims.Laboratory.People;
using ParticleLims.Laboratory.Record;

namespace ParticleLims.Laboratory.Tests.People;

/// <summary>Passkeys: signing on with one, and signing.</summary>
public sealed class PasskeyTests
{
    private static readonly byte[] Ring = [1, 1, 2, 3, 5, 8];
    private static readonly byte[] Other = [9, 9, 9];

    [Theory]
    [EachDatabase]
    public async Task It_signs_on_by_itself_as_two_factors_and_the_password_alone_no_more(DatabaseKind kind)
    {
        await using var laboratory = await OpenedSmallLaboratory.OpenAsync(kind);
        var person = laboratory.Small.People.QualityManager;
        var desk = new SecondFactorDesk(laboratory, person);
        (await desk.AddPasskeyAsync(Ring)).Count.ShouldBe(8, "for the day on which it is lost");
        var signedOn = await desk.SignOnAsync(Ring);
        signedOn.PersonId.ShouldBe(person.Id);
        (await laboratory.Get<Sessions>().LookAsync(signedOn.SessionId, default))!.Way.ShouldBe(SignOnWay.Passkey);
        await desk.FirstStepAsync();
        await SecondFactorDesk.ShouldRefuseAsync("passkey-wrong", () => desk.SignOnAsync(Other));
    }

    [Theory]
    [EachDatabase]
    public async Task A_count_that_does_not_rise_is_a_copy_and_opens_nothing(DatabaseKind kind)
    {
        await using var laboratory = await OpenedSmallLaboratory.OpenAsync(kind);
        var desk = new SecondFactorDesk(laboratory, laboratory.Small.People.QualityManager);
        await desk.AddPasskeyAsync(Ring);
        await desk.SignOnAsync(Ring, 7);
        await SecondFactorDesk.ShouldRefuseAsync("passkey-wrong", () => desk.SignOnAsync(Ring, 7));
        await desk.SignOnAsync(Ring, 8);
    }

    [Theory]
    [EachDatabase]
    public async Task It_proves_its_owner_for_a_signature_once_and_nobody_else(DatabaseKind kind)
    {
        await using var laboratory = await OpenedSmallLaboratory.OpenAsync(kind);
        var people = laboratory.Small.People;
        var (desk, other) = (new SecondFactorDesk(laboratory, people.QualityManager), new SecondFactorDesk(laboratory, people.Reviewer));
        await desk.AddPasskeyAsync(Ring);
        await other.AddPasskeyAsync(Other);
        var secrets = laboratory.Get<ISecretCheck>();
        var given = await desk.ForSignatureAsync(Ring);
        (await secrets.ProveAsync(people.QualityManager.Actor, given, default)).PersonId.ShouldBe(people.QualityManager.Id);
        await using (var data = laboratory.Data())
        {
            (await data.Events.CountAsync(one => one.Code == "people.passkey-used")).ShouldBe(1);
        }

        await laboratory.ShouldRefuseAsync("passkey-old", () => secrets.ProveAsync(people.QualityManager.Actor, given, default));
        var foreign = await other.ForSignatureAsync(Other);
        await SecondFactorDesk.ShouldRefuseAsync("passkey-wrong", () => secrets.ProveAsync(people.QualityManager.Actor, foreign, default));
        var turned = await desk.ForSignatureAsync(Other);
        await SecondFactorDesk.ShouldRefuseAsync("passkey-wrong", () => secrets.ProveAsync(people.QualityManager.Actor, turned, default));
        (await laboratory.Get<Passkeys>().AskOwnAsync(people.Technician.Actor, new PasskeyPlace(new Uri("https://lab.tarnfell.example")), default)).ShouldBeNull();
    }

    [Theory]
    [EachDatabase]
    public async Task A_removed_one_opens_nothing_and_only_its_owner_removes_it(DatabaseKind kind)
    {
        await using var laboratory = await OpenedSmallLaboratory.OpenAsync(kind);
        var people = laboratory.Small.People;
        var (desk, keys) = (new SecondFactorDesk(laboratory, people.QualityManager), laboratory.Get<Passkeys>());
        await desk.AddPasskeyAsync(Ring);
        var one = (await laboratory.Get<SecondFactors>().MineAsync(people.QualityManager.Actor, default)).Passkeys.Single();
        var foreign = await laboratory.Small.ProofAsync(people.Reviewer);
        await laboratory.ShouldRefuseAsync("not-found", () => keys.RemoveAsync(people.Reviewer.Actor, foreign, one.Id, default));
        await keys.RemoveAsync(people.QualityManager.Actor, await laboratory.Small.ProofAsync(people.QualityManager), one.Id, default);
        await SecondFactorDesk.ShouldRefuseAsync("passkey-wrong", () => desk.SignOnAsync(Ring));
        await laboratory.Get<SignOn>().SignOnAsync(people.QualityManager.SignOnName, people.QualityManager.Password, SecondFactorDesk.Office, default);
    }

    [Theory]
    [EachDatabase]
    public async Task While_the_password_has_to_wait_a_passkey_opens(DatabaseKind kind)
    {
        await using var laboratory = await OpenedSmallLaboratory.OpenAsync(kind);
        var person = laboratory.Small.People.QualityManager;
        var desk = new SecondFactorDesk(laboratory, person);
        await desk.AddPasskeyAsync(Ring);
        for (var wrong = 0; wrong < SecretTries.Free; wrong++)
        {
            await SecondFactorDesk.ShouldRefuseAsync("secret-wrong", () => laboratory.Get<SignOn>().SignOnAsync(person.SignOnName, "guessed by somebody", new("Elsewhere"), default));
        }

        await laboratory.ShouldRefuseAsync("wait", () => laboratory.Get<SignOn>().SignOnAsync(person.SignOnName, person.Password, SecondFactorDesk.Office, default));
        (await desk.SignOnAsync(Ring)).PersonId.ShouldBe(person.Id);
    }
}
