using ParticleLims.Laboratory.People;
using ParticleLims.Laboratory.Record;
using ParticleLims.Laboratory.Settings;
using ParticleLims.Laboratory.Terminals;

namespace ParticleLims.Laboratory.Tests.People;

/// <summary>A deed counts only within a session that goes on, whatever a screen still shows.</summary>
public sealed class SessionTests
{
    private const string Pin = "482913";

    public static IEnumerable<TheoryDataRow<SessionEnd, DatabaseKind>> Ends =>
        from end in Enum.GetValues<SessionEnd>()
        from kind in Enum.GetValues<DatabaseKind>()
        select new TheoryDataRow<SessionEnd, DatabaseKind>(end, kind);

    [Theory]
    [MemberData(nameof(Ends))]
    public async Task After_its_end_a_session_writes_and_reads_nothing_and_says_why(SessionEnd end, DatabaseKind kind)
    {
        await using var laboratory = await OpenedSmallLaboratory.OpenAsync(kind);
        var small = laboratory.Small;
        var (terminal, badge) = (await small.EnrolAsync("Bench 1"), await BadgeAsync(small, small.People.Technician));
        await small.SetPinAsync(small.People.Technician, Pin);
        await small.SetPinAsync(small.People.SecondTechnician, Pin);
        var actor = await terminal.SignOnAsync(small.People.Technician, Pin, badge);
        await small.Get<Laboratory.Sieves.SieveRegister>().AllAsync(actor, default);

        await EndAsync(laboratory, terminal, actor, badge, end);
        var lot = new Laboratory.Lots.NewLot("L-77", small.Calcite.ProductId, null, new Laboratory.Lots.LotParticulars(10m, new DateOnly(2026, 3, 1)));
        var code = end == SessionEnd.AccountDisabled ? "not-permitted" : "session-over";
        await laboratory.ShouldRefuseAsync(code, () => small.Get<Laboratory.Lots.LotReception>().BookInAsync(actor, lot, null, default));
        await laboratory.ShouldRefuseAsync(code, () => small.Get<Laboratory.Sieves.SieveRegister>().AllAsync(actor, default));
        var seen = (await small.Get<Sessions>().LookAsync(actor.SessionId!.Value, default))!;
        seen.Over.ShouldBe(end);
        seen.Words!.ShouldContain(end == SessionEnd.Enrolled ? "Bench 1" : small.People.Technician.FullName);
    }

    [Theory]
    [EachDatabase]
    public async Task At_one_terminal_there_is_one_session_and_elsewhere_it_goes_on(DatabaseKind kind)
    {
        await using var laboratory = await OpenedSmallLaboratory.OpenAsync(kind);
        var people = laboratory.Small.People;
        var (first, second) = (await laboratory.Small.EnrolAsync("Bench 1"), await laboratory.Small.EnrolAsync("Bench 2"));
        var here = await first.SignOnWithPasswordAsync(people.Technician);
        var there = await second.SignOnWithPasswordAsync(people.Technician);
        await first.SignOnWithPasswordAsync(people.SecondTechnician);
        (await OverAsync(laboratory, here)).ShouldBe(SessionEnd.TakenOver);
        (await OverAsync(laboratory, there)).ShouldBeNull();
        (await laboratory.Get<Sessions>().LastAtAsync(first.Seen, default))!.PersonName.ShouldBe(people.SecondTechnician.FullName);
        (await laboratory.Get<Sessions>().LastUsesAsync(people.Administrator.Actor, default)).Select(use => use.PersonName).ShouldBe([people.SecondTechnician.FullName, people.Technician.FullName], ignoreOrder: true);
    }

    [Theory]
    [EachDatabase]
    public async Task Nobody_acts_in_the_session_of_somebody_else(DatabaseKind kind)
    {
        await using var laboratory = await OpenedSmallLaboratory.OpenAsync(kind);
        var people = laboratory.Small.People;
        var technicians = await (await laboratory.Small.EnrolAsync("Bench 1")).SignOnWithPasswordAsync(people.Technician);
        var borrowed = people.QualityManager.Actor with { SessionId = technicians.SessionId };
        await laboratory.ShouldRefuseAsync("session-over", () => laboratory.Get<SettingsKeeping>().SwitchOnePersonAsync(borrowed, true, "Only one is left", new SecretProof(borrowed.PersonId!.Value), 1, default));
        await laboratory.ShouldRefuseAsync("session-over", () => laboratory.Get<Sessions>().LockAsync(borrowed, default));
    }

    private static async Task EndAsync(OpenedSmallLaboratory laboratory, TestTerminal terminal, Actor actor, Guid badge, SessionEnd end)
    {
        var (small, person, by) = (laboratory.Small, laboratory.Small.People.Technician, laboratory.Small.People.Administrator.Actor);
        var sessions = small.Get<Sessions>();
        await (end switch
        {
            SessionEnd.SignedOff => small.Get<SignOn>().SignOffAsync(actor, default),
            SessionEnd.Locked => sessions.LockAsync(actor, default),
            SessionEnd.HandedOver => sessions.HandOverAsync(actor, default),
            SessionEnd.Idle => sessions.LockIdleAsync(actor.SessionId!.Value, default),
            SessionEnd.TakenOver => terminal.SignOnAsync(small.People.SecondTechnician, Pin),
            SessionEnd.Enrolled => sessions.EndEnrolledAsync(actor, default),
            SessionEnd.AccountDisabled => DisableAsync(small, person),
            SessionEnd.AccessChanged => small.GiveRolesAsync(person, Role.Technician, Role.Reviewer),
            SessionEnd.BadgeRevoked => small.Get<Badges>().RevokeAsync(by, badge, "Lost on the way home", default),
            SessionEnd.TerminalWithdrawn => small.Get<TerminalRegister>().WithdrawAsync(by, terminal.Seen.Id!.Value, "The machine is broken", 1, default),
            SessionEnd.Expired => Task.Run(() => laboratory.Running.Clock.Advance(Session.Longest)),
            _ => throw new ArgumentOutOfRangeException(nameof(end), end, "Not an end."),
        });
    }

    private static async Task DisableAsync(SmallLaboratory small, TestPerson person)
    {
        var row = (await small.Get<Accounts>().AllAsync(small.People.Administrator.Actor, default)).Single(one => one.Id == person.Id);
        await small.Get<Accounts>().DisableAsync(small.People.Administrator.Actor, person.Id, "Has left the mill", row.Version, default);
    }

    private static async Task<Guid> BadgeAsync(SmallLaboratory small, TestPerson person)
    {
        await small.Get<Badges>().IssueAsync(small.People.Administrator.Actor, person.Id, default);
        return (await small.Get<Badges>().OfPersonAsync(small.People.Administrator.Actor, person.Id, default)).Single().Id;
    }

    private static async Task<SessionEnd?> OverAsync(OpenedSmallLaboratory laboratory, Actor actor) => (await laboratory.Get<Sessions>().LookAsync(actor.SessionId!.Value, default))!.Over;
}
