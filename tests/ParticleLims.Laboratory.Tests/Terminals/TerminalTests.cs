using Microsoft.EntityFrameworkCore;
using ParticleLims.Laboratory.Record;
using ParticleLims.Laboratory.Settings;
using ParticleLims.Laboratory.Terminals;

namespace ParticleLims.Laboratory.Tests.Terminals;

/// <summary>Enrolling, knowing again and withdrawing shared terminals.</summary>
public sealed class TerminalTests
{
    private static readonly TerminalCard Bench = new("Bench 1", "Sieving room", true);

    [Theory]
    [EachDatabase]
    public async Task A_terminal_is_known_by_its_secret_which_is_stored_as_a_hash_alone(DatabaseKind kind)
    {
        await using var laboratory = await OpenedSmallLaboratory.OpenAsync(kind);
        var terminal = await laboratory.Small.EnrolAsync("Bench 1");
        var known = (await laboratory.Get<TerminalRegister>().RecogniseAsync(terminal.Secret, default))!;
        (known.Name, known.Place, known.HasScanner).ShouldBe(("Bench 1", "Sieving room", true));
        (await laboratory.Get<TerminalRegister>().RecogniseAsync("another", default)).ShouldBeNull();
        await using var data = laboratory.Data();
        (await data.Set<Terminal>().SingleAsync()).SecretHash.ShouldBe(RecordChain.HashOf(terminal.Secret));
        (await laboratory.LastEventAsync()).Changes.ShouldNotContain(terminal.Secret);
        (await laboratory.LastEventAsync()).Changes.ShouldNotContain(RecordChain.HashOf(terminal.Secret));
    }

    [Theory]
    [EachDatabase]
    public async Task A_code_enrols_one_browser_within_a_quarter_of_an_hour_and_works_once(DatabaseKind kind)
    {
        await using var laboratory = await OpenedSmallLaboratory.OpenAsync(kind);
        var (register, by) = (laboratory.Get<TerminalRegister>(), laboratory.Small.People.Administrator.Actor);
        var code = await register.MakeCodeAsync(by, Bench, default);
        var typed = $" {code[..5].ToLowerInvariant()}-{code[5..]} ";
        var secret = await register.EnrolByCodeAsync(typed, new TerminalSeen("T-1"), default);
        (await register.RecogniseAsync(secret, default))!.Name.ShouldBe("Bench 1");
        await laboratory.ShouldRefuseAsync("terminal-code", () => register.EnrolByCodeAsync(code, new TerminalSeen("T-2"), default));

        var late = await register.MakeCodeAsync(by, Bench with { Name = "Bench 2" }, default);
        laboratory.Running.Clock.Advance(TerminalRegister.CodeLasts);
        await laboratory.ShouldRefuseAsync("terminal-code", () => register.EnrolByCodeAsync(late, new TerminalSeen("T-2"), default));
        await register.MakeCodeAsync(by, Bench with { Name = "bench 2" }, default);
    }

    [Theory]
    [EachDatabase]
    public async Task A_withdrawn_terminal_is_known_as_such_and_its_name_is_free(DatabaseKind kind)
    {
        await using var laboratory = await OpenedSmallLaboratory.OpenAsync(kind);
        var (register, by) = (laboratory.Get<TerminalRegister>(), laboratory.Small.People.Administrator.Actor);
        var terminal = await laboratory.Small.EnrolAsync("Bench 1");
        await laboratory.ShouldRefuseAsync("terminal-name-used", () => register.EnrolAsync(by, Bench with { Name = "BENCH 1" }, default));
        await register.WithdrawAsync(by, terminal.Seen.Id!.Value, "The machine is broken", 1, default);
        (await register.RecogniseAsync(terminal.Secret, default))!.WithdrawnAt.ShouldNotBeNull();
        await laboratory.ShouldRefuseAsync("terminal-withdrawn", () => register.ChangeAsync(by, terminal.Seen.Id!.Value, Bench, "Moved to the store", 2, default));
        await register.EnrolAsync(by, Bench, default);
    }

    [Theory]
    [InlineData("T-1234ABCD")]
    [InlineData("server")]
    [InlineData("API")]
    public void A_name_that_the_record_uses_otherwise_is_refused(string name) =>
        Should.Throw<RefusedException>(() => (Bench with { Name = name }).Check()).Code.ShouldBe("terminal-name-taken");

    [Theory]
    [EachDatabase]
    public async Task Where_the_laboratory_says_so_weighings_are_taken_at_enrolled_terminals_only(DatabaseKind kind)
    {
        await using var laboratory = await OpenedSmallLaboratory.OpenAsync(kind);
        var small = laboratory.Small;
        var lot = await small.BookInAsync(small.Calcite);
        await small.Bench().StartAsync(lot.RunId, small.Calcite);
        await laboratory.Get<SettingsKeeping>().ChangeTerminalRulesAsync(small.People.Administrator.Actor, new TerminalRules(true, 5), "The auditor asked for it", 1, default);
        var step = (await small.Bench().ViewAsync(lot.RunId)).Next!;
        await laboratory.ShouldRefuseAsync("terminal-not-enrolled", () => small.Bench().WeighAsync(lot.RunId, step, TestBench.TareGrams(1)));

        var terminal = await small.EnrolAsync("Bench 1");
        var actor = await terminal.SignOnWithPasswordAsync(small.People.Technician);
        await new TestBench(small, actor).WeighAsync(lot.RunId, step, TestBench.TareGrams(1));
        var weighing = (await small.Bench().ViewAsync(lot.RunId)).Run.Weighings.ShouldHaveSingleItem();
        (weighing.PersonName, weighing.Terminal).ShouldBe((small.People.Technician.FullName, "Bench 1"));
        (await laboratory.LastEventAsync()).Terminal.ShouldBe("Bench 1");
    }

    [Theory]
    [EachDatabase]
    public async Task A_renamed_terminal_carries_its_new_name_at_once_and_the_old_records_keep_the_old_one(DatabaseKind kind)
    {
        await using var laboratory = await OpenedSmallLaboratory.OpenAsync(kind);
        var small = laboratory.Small;
        var terminal = await small.EnrolAsync("Bench 1");
        var actor = await terminal.SignOnWithPasswordAsync(small.People.Technician);
        await laboratory.Get<TerminalRegister>().ChangeAsync(small.People.Administrator.Actor, terminal.Seen.Id!.Value, Bench with { Name = "Window bench" }, "Moved to the window", 1, default);
        await small.Get<Laboratory.People.Sessions>().LockAsync(actor, default);
        (await laboratory.LastEventAsync()).Terminal.ShouldBe("Window bench");
        await using var data = laboratory.Data();
        (await data.Events.SingleAsync(one => one.Code == "people.sign-on" && one.SubjectId == small.People.Technician.Id)).Terminal.ShouldBe("Bench 1");
    }
}
