using Microsoft.EntityFrameworkCore;
using ParticleLims.Laboratory.Record;
using ParticleLims.Laboratory.Storage;

namespace ParticleLims.Laboratory.Tests.Record;

/// <summary>Every public deed that writes, found by reflection: one event on success, none on failure.</summary>
public sealed class EveryDeedTests
{
    public static IEnumerable<TheoryDataRow<string, DatabaseKind>> Deeds =>
        from ability in Abilities.All
        where ability.Event is not null
        from kind in Enum.GetValues<DatabaseKind>()
        select new TheoryDataRow<string, DatabaseKind>(ability.Name, kind);

    [Fact]
    public void Every_public_method_of_a_service_has_its_row_and_only_one()
    {
        var found = Abilities.Found().Select(Ability.NameOf).ToList();
        found.Count.ShouldBeGreaterThan(100, "reflection finds the services");
        var rows = Abilities.All.Select(ability => ability.Name).Concat(Abilities.Elsewhere.Keys).ToList();
        rows.ShouldBeUnique();
        found.Except(rows).ShouldBeEmpty("methods without a row: say in the table who may call them and what event they leave");
        rows.Except(found).ShouldBeEmpty("rows without a method");
    }

    [Fact]
    public void A_class_over_one_of_the_paths_or_the_database_cannot_hide()
    {
        Abilities.Reaches(typeof(OverThePath)).ShouldBeTrue();
        Abilities.Reaches(typeof(OverTheDatabase)).ShouldBeTrue();
        Abilities.Reaches(typeof(Ability)).ShouldBeFalse();
    }

    [Fact]
    public void Every_kind_of_deed_that_is_declared_is_left_by_some_row()
    {
        var left = Abilities.All.SelectMany(ability => new[] { ability.Event, ability.RefusalEvent }).OfType<string>().Concat(Abilities.EventsElsewhere.Keys).Distinct();
        left.ShouldBe(DeedWords.All.Keys, ignoreOrder: true);
    }

    [Theory]
    [MemberData(nameof(Deeds))]
    public async Task A_deed_leaves_exactly_one_event_and_a_refused_one_none(string deed, DatabaseKind kind)
    {
        var ability = Abilities.Of(deed);
        await using var stage = await Stage.OpenAsync(kind, ability.InEmpty);
        var act = await ability.Prepare!(stage);
        if (ability.TakesActor && !ability.May.HasFlag(Who.NotSignedOn))
        {
            await RefusedAsync(stage, "not-permitted", null, () => ability.AskAsync(stage, stage.ActorOf(Who.NotSignedOn)));
        }

        if (ability.Refusal is { } code)
        {
            await RefusedAsync(stage, code, ability.RefusalEvent, () => ability.AskAsync(stage, ability.TakesActor ? SomebodyWhoMay(stage, ability) : Actor.Program));
        }

        var before = await stage.LastAsync();
        await act();
        var left = (await stage.EventsAsync(before)).ShouldHaveSingleItem();
        left.Code.ShouldBe(ability.Event);
        left.SubjectLabel.ShouldNotBeNullOrWhiteSpace();
        left.At.ShouldBe(stage.Running.Clock.GetUtcNow());
        await using var data = stage.Data();
        (await RecordVerifier.VerifyAsync(data, null, CancellationToken.None)).Fault.ShouldBeNull();
    }

    [Theory]
    [EachDatabase]
    public async Task Bringing_an_empty_database_to_its_shape_is_one_event_and_opening_it_again_none(DatabaseKind kind)
    {
        await using var laboratory = await RunningLaboratory.OpenAsync(await TestDatabase.CreateAsync(kind), RunningLaboratory.FirstMorning);
        await laboratory.Get<DatabaseOpening>().OpenAsync(laboratory.Database.BackupFolder, CancellationToken.None);
        await using var data = laboratory.Data();
        (await data.Events.AsNoTracking().ToListAsync()).ShouldHaveSingleItem().Code.ShouldBe("storage.migrate");
    }

    private static Actor SomebodyWhoMay(Stage stage, Ability ability) => stage.ActorOf(Enum.GetValues<Who>().First(who => int.IsPow2((int)who) && ability.May.HasFlag(who)));

    private static async Task RefusedAsync(Stage stage, string code, string? leaves, Func<Task> act)
    {
        var (sum, last) = (await stage.SumAsync(), await stage.LastAsync());
        var refusal = await Should.ThrowAsync<RefusedException>(act);
        refusal.Code.ShouldBe(code, refusal.Message);
        (await stage.EventsAsync(last)).Select(one => one.Code).ShouldBe(leaves is null ? [] : [leaves]);
        if (leaves is null)
        {
            (await stage.SumAsync()).ShouldBe(sum);
        }
    }

    private sealed class OverThePath(WritePath writing)
    {
        public WritePath Writing => writing;
    }

    private sealed class OverTheDatabase(IDbContextFactory<LaboratoryContext> contexts)
    {
        public IDbContextFactory<LaboratoryContext> Contexts => contexts;
    }
}
