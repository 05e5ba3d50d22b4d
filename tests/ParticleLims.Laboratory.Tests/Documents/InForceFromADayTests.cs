using ParticleLims.Laboratory.Documents;
using ParticleLims.Laboratory.Methods;
using ParticleLims.Laboratory.Record;
using ParticleLims.Laboratory.Settings;
using ParticleLims.Laboratory.Specifications;
using ParticleLims.Laboratory.Templates;

namespace ParticleLims.Laboratory.Tests.Documents;

/// <summary>A version is approved today and comes into force on a day that was agreed.</summary>
public sealed class InForceFromADayTests
{
    [Theory]
    [EachDatabase]
    public async Task A_version_approved_for_a_later_day_leaves_the_one_before_in_force_until_that_day_begins(DatabaseKind kind)
    {
        await using var laboratory = await OpenedSmallLaboratory.OpenAsync(kind);
        var (small, manager, calcite) = (laboratory.Small, laboratory.Small.People.LaboratoryManager.Actor, laboratory.Small.Calcite);
        var day = (await TodayAsync(small)).AddDays(10);
        var next = await ApproveMethodAsync(small, day);

        (await InForceAsync(small)).ShouldBe([calcite.MethodVersionId]);
        var lot = (await small.BookInAsync(calcite)).Id;
        var early = await laboratory.ShouldRefuseAsync("method-not-approved", () => small.BookInSampleAsync(lot, calcite with { MethodVersionId = next }));
        early.Message.ShouldContain("M-GC-45 version 2 is approved, not yet in force");

        laboratory.Running.Clock.SetUtcNow((await StartAsync(small, day)).AddSeconds(-1));
        (await InForceAsync(small)).ShouldBe([calcite.MethodVersionId], "the day before counts to its end");
        laboratory.Running.Clock.Advance(TimeSpan.FromSeconds(1));
        (await InForceAsync(small)).ShouldBe([next]);
        var late = await laboratory.ShouldRefuseAsync("method-not-approved", () => small.BookInSampleAsync(lot, calcite));
        late.Message.ShouldContain("M-GC-45 version 1 is superseded");
        await small.BookInSampleAsync(lot, calcite with { MethodVersionId = next });

        var versions = (await small.Get<MethodKeeping>().AllAsync(manager, default)).Single(page => page.Method.Id == calcite.MethodId).Versions;
        versions.Select(version => version.StandingAt(versions, small.Get<TimeProvider>().GetUtcNow())).ShouldBe([VersionStanding.InForce, VersionStanding.Superseded]);
        (await laboratory.VerifyRecordAsync()).Fault.ShouldBeNull();
    }

    [Theory]
    [EachDatabase]
    public async Task A_newer_version_takes_the_place_of_one_that_waits_for_its_day(DatabaseKind kind)
    {
        await using var laboratory = await OpenedSmallLaboratory.OpenAsync(kind);
        var small = laboratory.Small;
        var today = await TodayAsync(small);
        await ApproveMethodAsync(small, today.AddDays(10));
        var third = await ApproveMethodAsync(small, today.AddDays(5));
        (await InForceAsync(small)).ShouldBe([small.Calcite.MethodVersionId]);

        laboratory.Running.Clock.SetUtcNow(await StartAsync(small, today.AddDays(5)));
        (await InForceAsync(small)).ShouldBe([third]);
        laboratory.Running.Clock.SetUtcNow(await StartAsync(small, today.AddDays(11)));
        (await InForceAsync(small)).ShouldBe([third], "the one that it took the place of never comes into force");

        var fourth = await ApproveMethodAsync(small, null);
        (await InForceAsync(small)).ShouldBe([fourth]);
        var states = (await small.Get<MethodKeeping>().AllAsync(small.People.LaboratoryManager.Actor, default)).Single(page => page.Method.Id == small.Calcite.MethodId).Versions.Select(version => version.State);
        states.ShouldBe([DocumentState.InForce, DocumentState.Superseded, DocumentState.Superseded, DocumentState.Superseded]);
    }

    [Theory]
    [EachDatabase]
    public async Task A_day_that_is_over_or_years_away_is_refused_and_today_means_at_once(DatabaseKind kind)
    {
        await using var laboratory = await OpenedSmallLaboratory.OpenAsync(kind);
        var (small, approval) = (laboratory.Small, laboratory.Small.Get<DocumentApproval<Specification, SpecificationVersion>>());
        var (today, quality) = (await TodayAsync(laboratory.Small), laboratory.Small.People.QualityManager);
        var version = await small.Get<SpecificationKeeping>().ReviseAsync(small.People.LaboratoryManager.Actor, small.Calcite.SpecificationId, small.Calcite.Limits, null, default);
        await approval.HandOverAsync(small.People.LaboratoryManager.Actor, version, 1, default);
        foreach (var wrong in (DateOnly[])[today.AddDays(-1), today.AddYears(2).AddDays(1), DateOnly.MaxValue])
        {
            var proof = await small.ProofAsync(quality);
            (await laboratory.ShouldRefuseAsync("in-force-on", () => approval.ApproveAsync(quality.Actor, version, wrong, proof, 2, default))).Member.ShouldBe("inForceOn");
        }

        await approval.ApproveAsync(quality.Actor, version, today, await small.ProofAsync(quality), 2, default);
        (await small.Get<SpecificationKeeping>().InForceAsync(quality.Actor, small.Calcite.ProductId, default)).Select(choice => choice.VersionId).ShouldBe([version]);
    }

    [Theory]
    [EachDatabase]
    public async Task The_programs_own_template_stays_in_force_until_the_day_of_its_second_version(DatabaseKind kind)
    {
        await using var laboratory = await OpenedSmallLaboratory.OpenAsync(kind);
        var (small, manager, quality) = (laboratory.Small, laboratory.Small.People.LaboratoryManager.Actor, laboratory.Small.People.QualityManager);
        var (keeping, approval) = (small.Get<TemplateKeeping>(), small.Get<DocumentApproval<CertificateTemplate, CertificateTemplateVersion>>());
        var day = (await TodayAsync(small)).AddDays(1);
        var version = await keeping.ReviseAsync(manager, CertificateTemplate.StandardId, new TemplateDraft(PaperPlan.Usual, "Another look"), null, default);
        await approval.HandOverAsync(manager, version, 1, default);
        await approval.ApproveAsync(quality.Actor, version, day, await small.ProofAsync(quality), 2, default);

        (await StandardAsync(keeping, manager)).ShouldBe((1, VersionStanding.AwaitsItsDay, VersionStanding.InForce));
        laboratory.Running.Clock.SetUtcNow(await StartAsync(small, day));
        (await StandardAsync(keeping, manager)).ShouldBe((2, VersionStanding.InForce, VersionStanding.Superseded));
    }

    private static async Task<(int InForce, VersionStanding Second, VersionStanding First)> StandardAsync(TemplateKeeping keeping, Actor actor)
    {
        var page = (await keeping.FindAsync(actor, CertificateTemplate.StandardId, default))!;
        return (page.InForce!.Number, page.Versions[0].StandingAt(page.Versions, page.At), page.Versions[1].StandingAt(page.Versions, page.At));
    }

    private static async Task<List<Guid>> InForceAsync(SmallLaboratory small) =>
        [.. (await small.Get<MethodKeeping>().InForceAsync(small.People.Technician.Actor, small.Calcite.ProductId, default)).Select(choice => choice.VersionId)];

    private static async Task<Guid> ApproveMethodAsync(SmallLaboratory small, DateOnly? day)
    {
        var (manager, quality, approval) = (small.People.LaboratoryManager, small.People.QualityManager, small.Get<DocumentApproval<Method, MethodVersion>>());
        var version = await small.Get<MethodKeeping>().ReviseAsync(manager.Actor, small.Calcite.MethodId, small.Calcite.Draft, null, default);
        await approval.HandOverAsync(manager.Actor, version, 1, default);
        await approval.ApproveAsync(quality.Actor, version, day, await small.ProofAsync(quality), 2, default);
        return version;
    }

    private static async Task<LaboratorySettings> SettingsAsync(SmallLaboratory small) => (await small.Get<SettingsKeeping>().FindAsync(default))!;

    private static async Task<DateOnly> TodayAsync(SmallLaboratory small) => (await SettingsAsync(small)).LocalDay(small.Get<TimeProvider>().GetUtcNow());

    private static async Task<DateTimeOffset> StartAsync(SmallLaboratory small, DateOnly day) => (await SettingsAsync(small)).StartOf(day);
}
