using Microsoft.EntityFrameworkCore;
using ParticleLims.Laboratory.Certificates;
using ParticleLims.Laboratory.Documents;
using ParticleLims.Laboratory.Methods;
using ParticleLims.Laboratory.People;
using ParticleLims.Laboratory.Record;
using ParticleLims.Laboratory.Review;
using ParticleLims.Laboratory.Settings;

namespace ParticleLims.Laboratory.Tests.Settings;

/// <summary>A laboratory of one person: the second person is switched off over a signature, everything made so says so, and it is switched on again in the same way.</summary>
public sealed class OnePersonTests
{
    [Theory]
    [EachDatabase]
    public async Task Switching_it_is_signed_with_a_reason_both_ways(DatabaseKind kind)
    {
        await using var laboratory = await OpenedSmallLaboratory.OpenAsync(kind);
        var (small, administrator) = (laboratory.Small, laboratory.Small.People.Administrator);
        var settings = (await laboratory.Get<SettingsKeeping>().FindAsync(default))!;
        var others = await small.ProofAsync(small.People.QualityManager);
        await laboratory.ShouldRefuseAsync("secret-not-proved", () => laboratory.Get<SettingsKeeping>().SwitchOnePersonAsync(administrator.Actor, true, "Only one of us", others, settings.Version, default));
        await small.SwitchOnePersonAsync();
        await small.SwitchOnePersonAsync(onePerson: false);
        await using var data = laboratory.Data();
        var signed = await data.Signatures.AsNoTracking().Where(one => one.SubjectId == settings.Id).OrderBy(one => one.Id).ToListAsync();
        signed.Select(one => (one.PrintedName, one.Meaning)).ShouldBe([("Ada Field", "one person does everything"), ("Ada Field", "a second person is needed again")], ignoreOrder: true);
        signed.ShouldContain(one => one.Content.Contains("Only one of us is left", StringComparison.Ordinal));
    }

    [Theory]
    [EachDatabase]
    public async Task Events_reviews_approvals_and_certificates_made_by_one_person_say_so_also_after_it_was_switched_off(DatabaseKind kind)
    {
        await using var laboratory = await OpenedSmallLaboratory.OpenAsync(kind);
        var small = laboratory.Small;
        var person = small.People.QualityManager;
        await small.SwitchOnePersonAsync();
        await small.GiveRolesAsync(person, Role.Technician, Role.Reviewer, Role.QualityManager, Role.LaboratoryManager);
        var version = await laboratory.Get<MethodKeeping>().ReviseAsync(person.Actor, small.Calcite.MethodId, small.Calcite.Draft with { WhatChanged = "By myself" }, null, default);
        var approval = laboratory.Get<DocumentApproval<Method, MethodVersion>>();
        await approval.HandOverAsync(person.Actor, version, 1, default);
        await approval.ApproveAsync(person.Actor, version, null, await small.ProofAsync(person), 2, default);
        (await laboratory.LastEventAsync()).SubjectLabel.ShouldBe("M-GC-45 version 2 (one-person laboratory)");
        await laboratory.Get<MethodAuthorising>().AuthoriseAsync(person.Actor, person.Id, small.Calcite.MethodId, "Twenty years of sieving", DateOnly.FromDateTime(RunningLaboratory.FirstMorning.UtcDateTime), default);
        (await laboratory.LastEventAsync()).SubjectLabel.ShouldEndWith("(one-person laboratory)");
        var method = small.Calcite with { MethodVersionId = version };
        var lot = await small.BookInAsync(method);
        await small.Bench(person).CarryOutAsync(lot.RunId, method, Powder.Calcite);
        await small.Desk.AcceptAsync(lot.RunId, person);
        await small.Desk.ReleaseAsync(lot.Id, person);
        await small.SwitchOnePersonAsync(onePerson: false);
        var certificate = await small.Desk.IssueAsync(lot.Id, lot.Sample.Id);
        await using var data = laboratory.Data();
        (await data.Reviews.SingleAsync(one => one.RunId == lot.RunId)).ReviewerName.ShouldBe("Quinn Ashby (one-person laboratory)");
        (await data.MethodVersions.SingleAsync(one => one.Id == version)).ApprovedByName.ShouldBe("Quinn Ashby (one-person laboratory)");
        (await data.Certificates.SingleAsync(one => one.Id == certificate)).Content.ShouldContain("This laboratory works with one person");
    }

    [Theory]
    [EachDatabase]
    public async Task A_second_person_leaves_no_mark_while_it_is_on_and_is_needed_again_once_it_is_off(DatabaseKind kind)
    {
        await using var laboratory = await OpenedSmallLaboratory.OpenAsync(kind);
        var small = laboratory.Small;
        await small.SwitchOnePersonAsync();
        var lot = await (await small.BookInAsync(small.Calcite)).SubmitAsync(Powder.Calcite);
        await small.Desk.AcceptAsync(lot.RunId);
        (await laboratory.LastEventAsync()).SubjectLabel.ShouldNotContain("one-person");
        await small.SwitchOnePersonAsync(onePerson: false);
        await small.GiveRolesAsync(small.People.Technician, Role.Technician, Role.Reviewer);
        var next = await (await small.BookInAsync(small.Calcite)).SubmitAsync(Powder.Calcite);
        await laboratory.ShouldRefuseAsync("own-work", () => small.Desk.SignAsync(next.RunId, small.People.Technician));
    }
}
