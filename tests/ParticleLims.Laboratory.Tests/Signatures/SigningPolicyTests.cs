using Microsoft.EntityFrameworkCore;
using ParticleLims.Laboratory.People;
using ParticleLims.Laboratory.Signatures;

namespace ParticleLims.Laboratory.Tests.Signatures;

/// <summary>Nobody signs before they have accepted the signing policy once for each of its versions, and no right to sign is given before somebody has made sure who the person is.</summary>
public sealed class SigningPolicyTests
{
    private const string Addition = "Signatures are given at the desk, never at the bench.";

    [Fact]
    public void A_changed_text_raises_its_version() =>
        (SigningPolicyText.Version, SigningPolicy.Of(null).TextHash).ShouldBe((1, "6d5ad14eb9317afa6df15906c8c81fd5b3d1a544f65861df48b6f21e210de4e5"), "whoever changes the words raises the version and writes the new hash here, so that everybody is asked again");

    [Theory]
    [EachDatabase]
    public async Task A_new_version_asks_everybody_again_before_their_next_signature_and_keeps_what_was_accepted_when(DatabaseKind kind)
    {
        await using var laboratory = await OpenedSmallLaboratory.OpenAsync(kind);
        var (small, policies, reviewer) = (laboratory.Small, laboratory.Get<SigningPolicies>(), laboratory.Small.People.Reviewer);
        var lot = await (await small.BookInAsync(small.Calcite)).SubmitAsync(Powder.Calcite);
        (await policies.OpenAsync(reviewer.Actor, default)).ShouldBeNull();
        await policies.ChangeAdditionAsync(small.People.Administrator.Actor, Addition, "As the auditor asked", "1.0", default);
        var open = (await policies.OpenAsync(reviewer.Actor, default))!;
        (open.Number, open.Addition, open.Paragraphs[^1]).ShouldBe(("1.1", Addition, Addition));
        var version = (await small.Bench().ViewAsync(lot.RunId)).Run.Version;
        var proof = await small.ProofAsync(reviewer);
        await small.Get<Laboratory.Review.RunChanges>().OpenAsync(reviewer.Actor, lot.RunId, default);
        var refused = await laboratory.ShouldRefuseAsync("policy-not-accepted", () => small.Get<Laboratory.Review.RunReview>().AcceptAsync(reviewer.Actor, lot.RunId, proof, version, default));
        refused.Message.ShouldContain("version 1.1");
        var old = await small.ProofAsync(reviewer);
        await laboratory.ShouldRefuseAsync("changed-meanwhile", () => policies.AcceptAsync(reviewer.Actor, "1.0", old, default));
        await policies.AcceptAsync(reviewer.Actor, "1.1", await small.ProofAsync(reviewer), default);
        await lot.AcceptAsync();
        await using var data = laboratory.Data();
        var accepted = await data.Set<SigningAcceptance>().Where(one => one.PersonId == reviewer.Id).OrderBy(one => one.PolicyNumber).ToListAsync();
        accepted.Select(one => one.PolicyNumber).ShouldBe(["1.0", "1.1"]);
        accepted[1].TextHash.ShouldBe(open.TextHash);
        accepted[1].At.ShouldBe(laboratory.Running.Clock.GetUtcNow());
    }

    [Theory]
    [EachDatabase]
    public async Task It_holds_up_signatures_and_nothing_else_and_is_accepted_only_with_ones_own_password(DatabaseKind kind)
    {
        await using var laboratory = await OpenedSmallLaboratory.OpenAsync(kind);
        var (small, policies, person) = (laboratory.Small, laboratory.Get<SigningPolicies>(), laboratory.Small.People.Reviewer);
        await policies.ChangeAdditionAsync(small.People.Administrator.Actor, Addition, "As the auditor asked", "1.0", default);
        await small.SetPinAsync(person, "739164");
        var others = await small.ProofAsync(small.People.QualityManager);
        await laboratory.ShouldRefuseAsync("secret-not-proved", () => policies.AcceptAsync(person.Actor, "1.1", others, default));
        await laboratory.ShouldRefuseAsync("policy-addition", () => policies.ChangeAdditionAsync(small.People.Administrator.Actor, $" {Addition} ", "Again the same", "1.1", default));
        await laboratory.ShouldRefuseAsync("changed-meanwhile", () => policies.ChangeAdditionAsync(small.People.Administrator.Actor, "Other words", "From an old page", "1.0", default));
        await policies.ChangeAdditionAsync(small.People.Administrator.Actor, string.Empty, "Not needed any more", "1.1", default);
        var now = await policies.FindAsync(default);
        (now.Number, now.Addition, now.Paragraphs.Count).ShouldBe(("1.2", null, SigningPolicyText.Paragraphs.Count));
    }

    [Theory]
    [EachDatabase]
    public async Task A_role_that_signs_is_given_only_to_somebody_whose_identity_was_verified(DatabaseKind kind)
    {
        await using var laboratory = await OpenedSmallLaboratory.OpenAsync(kind);
        var (accounts, administrator, person) = (laboratory.Get<Accounts>(), laboratory.Small.People.Administrator.Actor, laboratory.Small.People.Technician);
        var version = (await accounts.AllAsync(administrator, default)).Single(row => row.Id == person.Id).Version;
        foreach (var role in (Role[])[Role.Reviewer, Role.QualityManager, Role.LaboratoryManager, Role.Administrator])
        {
            (await laboratory.ShouldRefuseAsync("identity-not-checked", () => accounts.SetRolesAsync(administrator, person.Id, [Role.Technician, role], "Takes over", version, default))).Message.ShouldContain("Tom Reed");
            await laboratory.ShouldRefuseAsync("identity-not-checked", () => accounts.CreateAsync(administrator, new NewPerson("olin.hart", "Olin Hart", [role], "seven blue kettles sing"), null, default));
        }

        await laboratory.ShouldRefuseAsync("identity-check", () => accounts.CheckIdentityAsync(administrator, person.Id, SmallLaboratory.SeenInPerson with { How = " " }, default));
        await laboratory.ShouldRefuseAsync("identity-check", () => accounts.CheckIdentityAsync(administrator, person.Id, SmallLaboratory.SeenInPerson with { On = new DateOnly(2099, 1, 1) }, default));
        await accounts.CheckIdentityAsync(administrator, person.Id, SmallLaboratory.SeenInPerson, default);
        await accounts.SetRolesAsync(administrator, person.Id, [Role.Technician, Role.Reviewer], "Takes over", version, default);
        var check = (await accounts.IdentityChecksAsync(administrator, person.Id, default)).ShouldHaveSingleItem();
        (check.ByName, check.How, check.SeenOn, check.WrittenByName).ShouldBe(("Ada Field", "Passport, in person", new DateOnly(2026, 1, 5), "Ada Field"));
        await accounts.CreateAsync(administrator, new NewPerson("olin.hart", "Olin Hart", [Role.Reviewer], "seven blue kettles sing") { Identity = SmallLaboratory.SeenInPerson }, null, default);
    }
}
