using Microsoft.EntityFrameworkCore;
using ParticleLims.Laboratory.Record;

namespace ParticleLims.Laboratory.Tests.Record;

/// <summary>Somebody with the database's password drops the triggers and changes the record: the verifier finds it.</summary>
public sealed class VerifierTests
{
    private const string Columns = "at, person_id, person_name, terminal, code, subject_kind, subject_id, subject_label, reason, changes, search_text, previous_hash, hash";

    [Theory]
    [EachDatabase("person_name", "'Somebody Else'")]
    [EachDatabase("person_id", "subject_id")]
    [EachDatabase("terminal", "'T9'")]
    [EachDatabase("code", "'lots.other'")]
    [EachDatabase("subject_kind", "'Nothing'")]
    [EachDatabase("subject_label", "'another'")]
    [EachDatabase("reason", "'made up later'")]
    [EachDatabase("changes", "'[]'")]
    [EachDatabase("search_text", "'NOT TO BE FOUND'")]
    [EachDatabase("hash", "'00000000000000000000000000000000000000000000000000000000000000aa'")]
    [EachDatabase("previous_hash", "'00000000000000000000000000000000000000000000000000000000000000bb'")]
    public async Task An_edited_member_is_found(DatabaseKind kind, string column, string value)
    {
        await using var laboratory = await BreakInAsync(kind);
        await DoAsync(laboratory, $"UPDATE record_events SET {column} = {value} WHERE sequence = 7");
        (await laboratory.VerifyRecordAsync()).Fault.ShouldNotBeNull().ShouldContain("7");
    }

    [Theory]
    [EachDatabase]
    public async Task A_moved_instant_is_found(DatabaseKind kind)
    {
        await using var laboratory = await BreakInAsync(kind);
        await DoAsync(laboratory, kind == DatabaseKind.Sqlite ? "UPDATE record_events SET at = at + 1 WHERE sequence = 7" : "UPDATE record_events SET at = at + interval '1 microsecond' WHERE sequence = 7");
        (await laboratory.VerifyRecordAsync()).Fault.ShouldNotBeNull().ShouldContain("7");
    }

    [Theory]
    [EachDatabase]
    public async Task A_deleted_event_is_found(DatabaseKind kind)
    {
        await using var laboratory = await BreakInAsync(kind);
        await DoAsync(laboratory, "DELETE FROM record_events WHERE sequence = 7");
        (await laboratory.VerifyRecordAsync()).Fault.ShouldBe("Event 7 is missing: the next one is 8.");
    }

    [Theory]
    [EachDatabase]
    public async Task A_deleted_event_is_found_when_the_others_close_up(DatabaseKind kind)
    {
        await using var laboratory = await BreakInAsync(kind);
        await DoAsync(laboratory, "DELETE FROM record_events WHERE sequence = 7");
        await DoAsync(laboratory, "UPDATE record_events SET sequence = -sequence WHERE sequence > 7");
        await DoAsync(laboratory, "UPDATE record_events SET sequence = -sequence - 1 WHERE sequence < 0");
        (await laboratory.VerifyRecordAsync()).Fault.ShouldBe("Event 7 does not follow the event before it.");
    }

    [Theory]
    [EachDatabase]
    public async Task An_inserted_event_is_found(DatabaseKind kind)
    {
        await using var laboratory = await BreakInAsync(kind);
        await DoAsync(laboratory, "UPDATE record_events SET sequence = -sequence WHERE sequence > 7");
        await DoAsync(laboratory, "UPDATE record_events SET sequence = -sequence + 1 WHERE sequence < 0");
        await DoAsync(laboratory, $"INSERT INTO record_events (sequence, {Columns}) SELECT 8, {Columns.Replace(", hash", ", 'ff'", StringComparison.Ordinal)} FROM record_events WHERE sequence = 7");
        (await laboratory.VerifyRecordAsync()).Fault.ShouldNotBeNull().ShouldContain("8");
    }

    [Theory]
    [EachDatabase]
    public async Task Swapped_events_are_found(DatabaseKind kind)
    {
        await using var laboratory = await BreakInAsync(kind);
        await DoAsync(laboratory, "UPDATE record_events SET sequence = -7 WHERE sequence = 7");
        await DoAsync(laboratory, "UPDATE record_events SET sequence = 7 WHERE sequence = 8");
        await DoAsync(laboratory, "UPDATE record_events SET sequence = 8 WHERE sequence = -7");
        (await laboratory.VerifyRecordAsync()).Fault.ShouldBe("Event 7 does not follow the event before it.");
    }

    [Theory]
    [EachDatabase]
    public async Task A_cut_off_end_is_found_by_a_head_kept_outside_and_only_by_that(DatabaseKind kind)
    {
        await using var laboratory = await BreakInAsync(kind);
        var head = await HeadAsync(laboratory);
        await DoAsync(laboratory, $"DELETE FROM record_events WHERE sequence > {head.Sequence - 3}");
        (await laboratory.VerifyRecordAsync()).Fault.ShouldBeNull();
        await using var data = laboratory.Data();
        (await RecordVerifier.VerifyAsync(data, head, default)).Fault.ShouldBe($"The record ends at event {head.Sequence - 3}, but event {head.Sequence} was seen outside: its end was cut off.");
    }

    [Theory]
    [EachDatabase]
    public async Task A_record_rewritten_with_valid_hashes_is_found_by_a_head_kept_outside(DatabaseKind kind)
    {
        await using var laboratory = await BreakInAsync(kind);
        var head = await HeadAsync(laboratory);
        await RewriteAsync(laboratory);
        (await laboratory.VerifyRecordAsync()).Fault.ShouldBeNull("every hash fits");
        await using var data = laboratory.Data();
        (await RecordVerifier.VerifyAsync(data, head, default)).Fault.ShouldNotBeNull().ShouldContain("was rewritten");
    }

    [Theory]
    [EachDatabase]
    public async Task An_honest_record_holds_and_so_does_a_head_kept_outside(DatabaseKind kind)
    {
        await using var laboratory = await OpenedSmallLaboratory.OpenAsync(kind);
        var head = await HeadAsync(laboratory);
        await laboratory.Small.BookInAsync(laboratory.Small.Calcite);
        await using var data = laboratory.Data();
        var verified = await RecordVerifier.VerifyAsync(data, head, default);
        verified.Fault.ShouldBeNull();
        verified.Events.ShouldBe(head.Sequence + 2);
        verified.HeadHash.ShouldBe((await HeadAsync(laboratory)).Hash);
    }

    private static async Task<OpenedSmallLaboratory> BreakInAsync(DatabaseKind kind)
    {
        var laboratory = await OpenedSmallLaboratory.OpenAsync(kind);
        foreach (var trigger in kind == DatabaseKind.Sqlite ? ["no_update", "no_delete", "no_replace"] : (string[])["no_change", "no_truncate"])
        {
            await RunAsync(laboratory, $"DROP TRIGGER record_events_{trigger}{(kind == DatabaseKind.Sqlite ? string.Empty : " ON record_events")}");
        }

        (await laboratory.VerifyRecordAsync()).Fault.ShouldBeNull("it holds until somebody changes it");
        return laboratory;
    }

    private static async Task DoAsync(OpenedSmallLaboratory laboratory, string statement)
    {
        (await RunAsync(laboratory, statement)).ShouldNotBe(0, statement);
    }

    private static async Task<int> RunAsync(OpenedSmallLaboratory laboratory, string statement)
    {
        await using var data = laboratory.Data();
        return await data.Database.ExecuteSqlRawAsync(statement);
    }

    private static async Task<(long Sequence, string Hash)> HeadAsync(OpenedSmallLaboratory laboratory)
    {
        await using var data = laboratory.Data();
        var last = await data.Events.OrderByDescending(one => one.Sequence).FirstAsync();
        return (last.Sequence, last.Hash);
    }

    /// <summary>An attacker who knows how the chain is made: changes one event and hashes all that follow anew.</summary>
    private static async Task RewriteAsync(OpenedSmallLaboratory laboratory)
    {
        await using var data = laboratory.Data();
        var previous = RecordChain.Origin;
        foreach (var one in await data.Events.AsNoTracking().OrderBy(one => one.Sequence).ToListAsync())
        {
            var forged = Forge(one, previous, one.Sequence == 7 ? "made up later" : one.Reason, string.Empty);
            forged = Forge(one, previous, forged.Reason, RecordChain.HashOf(forged));
            await data.Database.ExecuteSqlAsync($"UPDATE record_events SET reason = {forged.Reason}, previous_hash = {forged.PreviousHash}, hash = {forged.Hash} WHERE sequence = {one.Sequence}");
            previous = forged.Hash;
        }
    }

    private static RecordEvent Forge(RecordEvent one, string previous, string? reason, string hash) => new()
    {
        Sequence = one.Sequence, At = one.At, PersonId = one.PersonId, PersonName = one.PersonName, Terminal = one.Terminal, Code = one.Code, SubjectKind = one.SubjectKind,
        SubjectId = one.SubjectId, SubjectLabel = one.SubjectLabel, Reason = reason, Changes = one.Changes, SearchText = one.SearchText, PreviousHash = previous, Hash = hash,
    };
}
