using ParticleLims.Laboratory.AccessReviews;
using ParticleLims.Laboratory.People;
using ParticleLims.Laboratory.Record;
using ParticleLims.Laboratory.Settings;
using ParticleLims.Laboratory.Terminals;

namespace ParticleLims.Laboratory.Tests.AccessReviews;

public sealed class AccessReviewTests
{
    [Theory]
    [EachDatabase]
    public async Task The_quality_manager_signs_who_may_do_what_and_the_signed_list_is_kept(DatabaseKind kind)
    {
        await using var opened = await OpenedSmallLaboratory.OpenAsync(kind);
        var (reviewing, people) = (opened.Running.Get<AccessReviewing>(), opened.Small.People);
        await opened.Running.Get<SignOn>().SignOnAsync(people.Technician.SignOnName, people.Technician.Password, new TerminalSeen("T1"), default);
        var board = await reviewing.BoardAsync(people.QualityManager.Actor, default);
        (board.Overdue, board.DueAt).ShouldBe((true, null), "nobody has looked yet");
        board.List.Accounts.Single(account => account.FullName == people.Technician.FullName).LastUse.ShouldBe(new DateOnly(2026, 3, 2));
        board.List.Accounts.Single(account => account.FullName == people.Reviewer.FullName).LastUse.ShouldBeNull();

        var id = await reviewing.SignAsync(people.QualityManager.Actor, "All as it should be", await opened.Small.ProofAsync(people.QualityManager), board.List.ContentHash, default);
        var signed = await reviewing.ContentAsync(people.Administrator.Actor, id, default);
        signed.ShouldNotBeNull().ShouldBe(board.List.Content);
        signed!.ShouldContain($"{people.Technician.FullName} ({people.Technician.SignOnName}), active; roles: Laboratory technician; last use: 2026-03-02");
        var after = await reviewing.BoardAsync(people.Administrator.Actor, default);
        after.Past.ShouldHaveSingleItem().Finding.ShouldBe("All as it should be");
        (after.Overdue, after.DueAt).ShouldBe((false, opened.Running.Clock.GetUtcNow().AddDays(LaboratorySettings.UsualAccessReviewDays)));
        opened.Running.Clock.Advance(TimeSpan.FromDays(LaboratorySettings.UsualAccessReviewDays + 1));
        (await reviewing.BoardAsync(people.QualityManager.Actor, default)).Overdue.ShouldBeTrue();
    }

    [Theory]
    [EachDatabase]
    public async Task A_list_that_changed_after_it_was_shown_is_not_signed(DatabaseKind kind)
    {
        await using var opened = await OpenedSmallLaboratory.OpenAsync(kind);
        var (reviewing, people) = (opened.Running.Get<AccessReviewing>(), opened.Small.People);
        var shown = (await reviewing.BoardAsync(people.QualityManager.Actor, default)).List.ContentHash;
        await opened.Running.Get<Accounts>().DisableAsync(people.Administrator.Actor, people.SecondTechnician.Id, "Has left the mill", 1, default);
        var proof = await opened.Small.ProofAsync(people.QualityManager);
        await Should.ThrowAsync<StaleVersionException>(() => reviewing.SignAsync(people.QualityManager.Actor, "All as it should be", proof, shown, default));
        (await reviewing.BoardAsync(people.QualityManager.Actor, default)).Past.ShouldBeEmpty();
    }

    [Theory]
    [InlineData(0)]
    [InlineData(1_097)]
    public async Task An_interval_that_reviews_nothing_is_refused(int days)
    {
        await using var opened = await OpenedSmallLaboratory.OpenAsync(DatabaseKind.Sqlite);
        (await Should.ThrowAsync<RefusedException>(() => opened.Running.Get<SettingsKeeping>().ChangeAccessReviewAsync(opened.Small.People.Administrator.Actor, days, "The watch asked for it", 1, default))).Member.ShouldBe("accessReviewDays");
    }
}
