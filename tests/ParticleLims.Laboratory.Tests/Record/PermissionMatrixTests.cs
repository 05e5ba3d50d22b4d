using ParticleLims.Laboratory.People;
using ParticleLims.Laboratory.Record;

namespace ParticleLims.Laboratory.Tests.Record;

/// <summary>Role by method: the service itself refuses, whatever a page showed.</summary>
public sealed class PermissionMatrixTests
{
    private static readonly Who[] Everybody = [Who.Technician, Who.Reviewer, Who.QualityManager, Who.LaboratoryManager, Who.Administrator, Who.Customer, Who.NotSignedOn];

    public static IEnumerable<TheoryDataRow<string, DatabaseKind>> Rows =>
        from who in Everybody
        from kind in Enum.GetValues<DatabaseKind>()
        select new TheoryDataRow<string, DatabaseKind>(who.ToString(), kind);

    [Fact]
    public void A_method_that_is_not_told_who_acts_is_for_anybody_or_for_the_program()
    {
        Abilities.All.Where(ability => !ability.TakesActor).ShouldAllBe(ability => ability.May == Who.Anybody || ability.May == Who.Program);
        Abilities.All.Where(ability => ability.TakesActor).ShouldAllBe(ability => !ability.May.HasFlag(Who.Program), "whoever names a person is not the program");
    }

    [Theory]
    [MemberData(nameof(Rows))]
    public async Task Each_role_may_what_the_table_says_and_nothing_else(string role, DatabaseKind kind)
    {
        await using var stage = await Stage.OpenAsync(kind);
        var (who, told) = (Enum.Parse<Who>(role), Abilities.All.Where(ability => ability.TakesActor).ToList());
        var before = await stage.SumAsync();
        var wrong = new List<string>();
        foreach (var ability in told.Where(ability => !ability.May.HasFlag(who) || ability.Event is null))
        {
            wrong.AddRange(await AskedAsync(stage, ability, who));
        }

        (await stage.SumAsync()).ShouldBe(before, "what is refused and what only reads writes nothing");
        foreach (var ability in told.Where(ability => ability.May.HasFlag(who) && ability.Event is not null))
        {
            wrong.AddRange(await AskedAsync(stage, ability, who));
        }

        wrong.ShouldBeEmpty();
        told.Count.ShouldBeGreaterThan(90);
    }

    [Theory]
    [EachDatabase]
    public async Task Whoever_was_disabled_may_nothing_any_more(DatabaseKind kind)
    {
        await using var stage = await Stage.OpenAsync(kind);
        var actor = stage.ActorOf(Who.QualityManager);
        await stage.Get<Accounts>().DisableAsync(stage.ActorOf(Who.Administrator), actor.PersonId!.Value, "Has left the mill", 1, default);
        var before = await stage.SumAsync();
        foreach (var ability in Abilities.All.Where(ability => ability is { TakesActor: true, RefusalEvent: null }))
        {
            (await IsPermittedAsync(stage, ability, actor)).ShouldBeFalse(ability.Name);
        }

        (await stage.SumAsync()).ShouldBe(before);
    }

    private static async Task<IEnumerable<string>> AskedAsync(Stage stage, Ability ability, Who who)
    {
        var permitted = await IsPermittedAsync(stage, ability, stage.ActorOf(who));
        return permitted == ability.May.HasFlag(who) ? [] : [$"{who} {(permitted ? "may" : "may not")} call {ability.Name}"];
    }

    private static async Task<bool> IsPermittedAsync(Stage stage, Ability ability, Actor actor)
    {
        try
        {
            await ability.AskAsync(stage, actor);
            return true;
        }
        catch (NotPermittedException)
        {
            return false;
        }
        catch (RefusedException)
        {
            return true; // asked for nothing that is there, after the permission was found
        }
    }
}
