using Microsoft.EntityFrameworkCore;
using ParticleLims.Laboratory.People;
using ParticleLims.Laboratory.Terminals;
using ParticleLims.Laboratory.Record;

namespace ParticleLims.Laboratory.Tests.People;

public sealed class WrongPasswordTests
{
    [Theory]
    [EachDatabase]
    public async Task After_five_wrong_passwords_each_further_one_doubles_the_wait(DatabaseKind kind)
    {
        await using var laboratory = await OpenedSmallLaboratory.OpenAsync(kind);
        var person = laboratory.Small.People.Technician;
        for (var free = 1; free < SecretTries.Free; free++)
        {
            (await WrongAsync(laboratory, person.SignOnName)).Code.ShouldBe("secret-wrong");
        }

        foreach (var seconds in (int[])[1, 2, 4, 8])
        {
            (await WrongAsync(laboratory, person.SignOnName)).Code.ShouldBe("secret-wrong");
            await laboratory.ShouldRefuseAsync("wait", () => RightAsync(laboratory, person));
            laboratory.Running.Clock.Advance(TimeSpan.FromSeconds(seconds) - TimeSpan.FromMilliseconds(1));
            await laboratory.ShouldRefuseAsync("wait", () => RightAsync(laboratory, person));
            laboratory.Running.Clock.Advance(TimeSpan.FromMilliseconds(1));
        }

        await RightAsync(laboratory, person);
        (await WrongAsync(laboratory, person.SignOnName)).Code.ShouldBe("secret-wrong");
        await RightAsync(laboratory, person);
    }

    [Theory]
    [EachDatabase]
    public async Task The_wait_never_passes_a_quarter_of_an_hour(DatabaseKind kind)
    {
        await using var laboratory = await OpenedSmallLaboratory.OpenAsync(kind);
        var person = laboratory.Small.People.Technician;
        for (var wrong = 0; wrong < 20; wrong++)
        {
            await WrongAsync(laboratory, person.SignOnName);
            laboratory.Running.Clock.Advance(TimeSpan.FromMinutes(15));
        }

        await RightAsync(laboratory, person);
    }

    [Theory]
    [EachDatabase]
    public async Task Wrong_passwords_at_signing_count_together_with_those_at_sign_on(DatabaseKind kind)
    {
        await using var laboratory = await OpenedSmallLaboratory.OpenAsync(kind);
        var person = laboratory.Small.People.QualityManager;
        for (var wrong = 0; wrong < SecretTries.Free; wrong++)
        {
            await (wrong % 2 == 0 ? WrongAsync(laboratory, person.SignOnName) : Should.ThrowAsync<RefusedException>(() => laboratory.Get<SignOn>().ProveAsync(person.Actor, "wrong", default)));
        }

        await laboratory.ShouldRefuseAsync("wait", () => laboratory.Small.ProofAsync(person));
        await laboratory.ShouldRefuseAsync("wait", () => RightAsync(laboratory, person));
    }

    [Theory]
    [EachDatabase]
    public async Task An_unknown_name_and_a_left_person_hear_the_same_words_and_every_try_is_recorded(DatabaseKind kind)
    {
        await using var laboratory = await OpenedSmallLaboratory.OpenAsync(kind);
        var (small, before) = (laboratory.Small, await laboratory.EventsAsync());
        var left = small.People.SecondTechnician;
        await small.Get<Accounts>().DisableAsync(small.People.Administrator.Actor, left.Id, "Has left the mill", 1, default);
        var words = new[]
        {
            (await WrongAsync(laboratory, small.People.Technician.SignOnName)).Message, (await WrongAsync(laboratory, "nobody.known")).Message, (await WrongAsync(laboratory, new string('x', 5_000))).Message,
            (await Should.ThrowAsync<RefusedException>(() => RightAsync(laboratory, left))).Message,
        };
        words.Distinct().ShouldHaveSingleItem();
        await using var data = laboratory.Data();
        var tries = await data.Events.AsNoTracking().Where(one => one.Sequence > before && one.Code == "people.secret-refused").ToListAsync();
        tries.Count.ShouldBe(words.Length);
        tries.ShouldAllBe(one => !one.Changes.Contains("wrong", StringComparison.Ordinal));
    }

    [Theory]
    [EachDatabase]
    public async Task Whoever_guesses_from_elsewhere_makes_nobody_wait_at_the_bench_nor_in_a_running_session(DatabaseKind kind)
    {
        await using var laboratory = await OpenedSmallLaboratory.OpenAsync(kind);
        var (small, person) = (laboratory.Small, laboratory.Small.People.Technician);
        var terminal = await small.EnrolAsync("Bench 1");
        await small.SetPinAsync(person, "482913");
        var running = new Actor(person.Id, "Office", (await RightAsync(laboratory, person)).SessionId);
        for (var wrong = 0; wrong < PinRules.WrongTries + SecretTries.Free; wrong++)
        {
            await WrongAsync(laboratory, person.SignOnName);
            laboratory.Running.Clock.Advance(TimeSpan.FromMinutes(15));
        }

        await WrongAsync(laboratory, person.SignOnName);
        await laboratory.ShouldRefuseAsync("wait", () => RightAsync(laboratory, person));
        await laboratory.Get<SignOn>().ProveAsync(running, person.Password, default);
        for (var wrong = 0; wrong < SecretTries.Free; wrong++)
        {
            await WrongAsync(laboratory, person.SignOnName);
        }

        await laboratory.ShouldRefuseAsync("wait", () => RightAsync(laboratory, person));
        await terminal.SignOnAsync(person, "482913");
    }

    private static Task<RefusedException> WrongAsync(OpenedSmallLaboratory laboratory, string name) =>
        Should.ThrowAsync<RefusedException>(() => laboratory.Get<SignOn>().SignOnAsync(name, "this is the wrong one", new TerminalSeen("T1"), default));

    private static Task<SignedOn> RightAsync(OpenedSmallLaboratory laboratory, TestPerson person) => laboratory.Get<SignOn>().SignOnAsync(person.SignOnName, person.Password, new TerminalSeen("T1"), default);
}
