using ParticleLims.Laboratory.Investigations;
using ParticleLims.Laboratory.Record;

namespace ParticleLims.Laboratory.Tests.Record;

public sealed class EverythingAboutALotTests
{
    [Theory]
    [EachDatabase]
    public async Task What_happened_to_a_lot_includes_its_samples_runs_decisions_and_certificates_and_no_other_lot(DatabaseKind kind)
    {
        await using var opened = await OpenedSmallLaboratory.OpenAsync(kind);
        var small = opened.Small;
        var good = await (await small.BookInAsync(small.Calcite)).ReleaseAsync(Powder.Calcite);
        await small.Desk.IssueAsync(good.Id, good.Sample.Id);
        var other = await (await small.BookInAsync(small.Calcite)).SubmitAsync(Powder.CoarseCalcite);

        var found = await AllAboutAsync(opened, good.Id);
        string[] happened = ["lots.book-in", "samples.book-in", "runs.start", "runs.weigh", "runs.sieve-begin", "runs.sieve-end", "runs.submit", "review.accept", "dispositions.release", "certificates.issue"];
        happened.Except(found.Select(one => one.Code)).ShouldBeEmpty();
        found.ShouldNotContain(one => one.SubjectId == other.Id || one.SubjectId == other.RunId || one.SubjectId == other.Sample.Id);
        found.Select(one => one.SubjectId).ShouldContain(good.Id);

        var bad = (await AllAboutAsync(opened, other.Id)).Select(one => one.Sequence).ToList();
        var investigation = (await small.Desk.InvestigationsAsync(other.Id)).Single();
        await small.Get<InvestigationWork>().NoteAsync(small.People.Reviewer.Actor, investigation.Id, "The sieve was looked at: no hole", null, default);
        (await AllAboutAsync(opened, other.Id)).Where(one => !bad.Contains(one.Sequence)).ShouldHaveSingleItem().Code.ShouldBe("investigations.note");
    }

    [Theory]
    [EachDatabase]
    public async Task A_thing_alone_is_told_without_what_belongs_to_it_and_called_by_its_name(DatabaseKind kind)
    {
        await using var opened = await OpenedSmallLaboratory.OpenAsync(kind);
        var lot = await opened.Small.BookInAsync(opened.Small.Calcite);
        var page = await opened.Running.Get<RecordReading>().FindAsync(opened.Small.People.Reviewer.Actor, new RecordQuestion(lot.Id), 0, 100, default);
        page.Events.ShouldHaveSingleItem().Code.ShouldBe("lots.book-in");
        page.Subject.ShouldBe($"lot {page.Events[0].SubjectLabel}");
    }

    [Theory]
    [EachDatabase]
    public async Task The_history_of_a_reworked_lot_begins_with_its_rework_and_is_a_part_of_that_of_the_rejected_one(DatabaseKind kind)
    {
        await using var opened = await OpenedSmallLaboratory.OpenAsync(kind);
        var small = opened.Small;
        var rejected = await (await (await small.BookInAsync(small.Calcite)).SubmitAsync(Powder.CoarseCalcite)).AcceptAsync();
        await small.Desk.ConcludeAsync(rejected.Id, InvestigationConclusion.Confirmed);
        await small.Desk.RejectAsync(rejected.Id);
        var child = await small.Desk.ReworkAsync(rejected.Id, 10m);
        var page = await opened.Running.Get<RecordReading>().FindAsync(small.People.Reviewer.Actor, new RecordQuestion(child, WithBelongings: true), 0, 100, default);
        page.Events.ShouldHaveSingleItem().Code.ShouldBe("dispositions.rework");
        page.Subject.ShouldBe($"lot {(await small.Desk.EvidenceAsync(child)).Lot.Number}");
        string[] happened = ["lots.book-in", "dispositions.reject", "dispositions.rework"];
        happened.Except((await AllAboutAsync(opened, rejected.Id)).Select(one => one.Code)).ShouldBeEmpty();
    }

    [Theory]
    [EachDatabase]
    public async Task What_was_only_touched_is_not_told_as_changed(DatabaseKind kind)
    {
        await using var opened = await OpenedSmallLaboratory.OpenAsync(kind);
        var (small, work) = (opened.Small, opened.Small.Get<HypothesisWork>());
        var (reviewer, quality) = (small.People.Reviewer.Actor, small.People.QualityManager);
        var lot = await (await small.BookInAsync(small.Calcite)).SubmitAsync(Powder.CoarseCalcite);
        var supposed = await work.ProposeAsync(reviewer, (await small.Desk.OpenInvestigationAsync(lot.Id)).Id, "The 45 µm sieve is torn", "The second half on another sieve", "Supported if they differ by 2 %", null, default);
        await work.ApproveAsync(quality.Actor, supposed, await small.ProofAsync(quality), 1, default);
        await work.MeasureAsync(reviewer, supposed, "Passing 45 µm on TS-2", 98.1m, "%", null, default);
        var told = (await AllAboutAsync(opened, lot.Id)).Where(one => one.Code.StartsWith("investigations.", StringComparison.Ordinal)).ToDictionary(one => one.Code, RecordDifference.Of);
        told["investigations.measure-hypothesis"].Select(one => (one.Thing, one.Change)).ShouldBe([("Hypothesis measurement", "added")]);
        told["investigations.approve-hypothesis"].Single(one => one.Thing == "Hypothesis").Values.ShouldAllBe(value => value.Before != value.After);
    }

    private static async Task<IReadOnlyList<RecordEvent>> AllAboutAsync(OpenedSmallLaboratory opened, Guid lot) =>
        (await opened.Running.Get<RecordReading>().FindAsync(opened.Small.People.Reviewer.Actor, new RecordQuestion(lot, WithBelongings: true), 0, 500, default)).Events;
}
