using Microsoft.EntityFrameworkCore;
using ParticleLims.Laboratory.Record;
using ParticleLims.Laboratory.Storage;

namespace ParticleLims.Laboratory.Tests.Record;

/// <summary>Somebody with the database's password drops the triggers and changes the tables past the record: the comparison finds it.</summary>
public sealed class RowVerifierTests
{
    [Theory]
    [EachDatabase]
    public async Task A_laboratory_at_work_is_as_its_record_says(DatabaseKind kind)
    {
        await using var laboratory = await WorkedAsync(kind);
        var found = await VerifyAsync(laboratory);
        found.Faults.ShouldBeEmpty();
        found.Rows.ShouldBeGreaterThan(80);
        found.Values.ShouldBeGreaterThan(found.Rows);
        found.Unvouched.ShouldBe(0, "every value of a new laboratory stands in the record");
    }

    [Theory]
    [EachDatabase("UPDATE weighings SET mass = mass + 1000 WHERE id = (SELECT id FROM weighings ORDER BY at LIMIT 1)", "mass")]
    [EachDatabase("UPDATE runs SET state = 'Accepted' WHERE state <> 'Accepted'", "state")]
    [EachDatabase("UPDATE limits SET upper = 999000000 WHERE upper IS NOT NULL", "upper")]
    [EachDatabase("UPDATE people SET password_hash = (SELECT password_hash FROM people ORDER BY user_name LIMIT 1) WHERE user_name = (SELECT user_name FROM people ORDER BY user_name DESC LIMIT 1)", "password hash is “(secret)”, in the table it is “(secret)”")]
    [EachDatabase("UPDATE dispositions SET reason = 'made up later'", "reason")]
    [EachDatabase("UPDATE method_versions SET drying_minutes = 99", "preparation drying minutes")]
    [EachDatabase("UPDATE reading_formats SET pattern = 'anything'", "pattern")]
    [EachDatabase("DELETE FROM reviews", "taken out")]
    [EachDatabase("INSERT INTO person_roles (person_id, role, granted_at) SELECT id, 'QualityManager', created_at FROM people WHERE user_name = (SELECT user_name FROM people ORDER BY user_name LIMIT 1)", "put in")]
    public async Task A_row_changed_past_the_record_is_found(DatabaseKind kind, string attack, string words)
    {
        await using var laboratory = await WorkedAsync(kind);
        await using (var data = laboratory.Data())
        {
            await DropTriggersAsync(data, kind);
            (await data.Database.ExecuteSqlRawAsync(attack)).ShouldBeGreaterThan(0, attack);
        }

        (await laboratory.VerifyRecordAsync()).Fault.ShouldBeNull("the chain itself was left alone");
        (await VerifyAsync(laboratory)).Faults.ShouldNotBeEmpty();
        (await VerifyAsync(laboratory)).Faults.ShouldContain(fault => fault.Contains(words, StringComparison.Ordinal), attack);
    }

    [Theory]
    [EachDatabase]
    public async Task It_sees_one_state_and_holds_nobody_up(DatabaseKind kind)
    {
        await using var laboratory = await WorkedAsync(kind);
        await using var data = laboratory.Data();
        await using var reading = await laboratory.Get<IDatabaseEngine>().BeginReadingAsync(data, default);
        var before = await data.Events.CountAsync();
        await laboratory.Small.BookInAsync(laboratory.Small.Calcite);
        (await data.Events.CountAsync()).ShouldBe(before, "it still sees the state in which it began");
        (await RowVerifier.VerifyAsync(data, default)).Faults.ShouldBeEmpty();
    }

    private static async Task<OpenedSmallLaboratory> WorkedAsync(DatabaseKind kind)
    {
        var laboratory = await OpenedSmallLaboratory.OpenAsync(kind);
        var small = laboratory.Small;
        var good = await (await small.BookInAsync(small.Calcite)).ReleaseAsync(Powder.Calcite);
        await small.Desk.IssueAsync(good.Id, good.Sample.Id);
        await (await small.BookInAsync(small.Calcite)).SubmitAsync(Powder.CoarseCalcite);
        return laboratory;
    }

    private static async Task<RowVerification> VerifyAsync(OpenedSmallLaboratory laboratory)
    {
        await using var data = laboratory.Data();
        return await RowVerifier.VerifyAsync(data, default);
    }

    internal static async Task DropTriggersAsync(LaboratoryContext data, DatabaseKind kind)
    {
        var triggers = kind == DatabaseKind.Sqlite
            ? await data.Database.SqlQueryRaw<string>("SELECT 'DROP TRIGGER ' || name AS \"Value\" FROM sqlite_master WHERE type = 'trigger'").ToListAsync()
            : await data.Database.SqlQueryRaw<string>("SELECT DISTINCT 'DROP TRIGGER ' || trigger_name || ' ON ' || event_object_table AS \"Value\" FROM information_schema.triggers").ToListAsync();
        foreach (var trigger in triggers)
        {
            await data.Database.ExecuteSqlRawAsync(trigger);
        }
    }
}
