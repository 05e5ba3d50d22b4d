using System.Text;
using OtpNet;
using ParticleLims.Laboratory.People;
using ParticleLims.Laboratory.Record;

namespace ParticleLims.Laboratory.Tests.People;

/// <summary>A second factor by one-time codes.</summary>
public sealed class OneTimeCodeTests
{
    /// <summary>The test vectors of RFC 6238, appendix B, for HMAC-SHA-1: our six digits are the last six of its eight.</summary>
    [Theory]
    [InlineData(59, "94287082")]
    [InlineData(1111111109, "07081804")]
    [InlineData(1111111111, "14050471")]
    [InlineData(1234567890, "89005924")]
    [InlineData(2000000000, "69279037")]
    [InlineData(20000000000, "65353130")]
    public void Codes_are_those_of_the_standard(long seconds, string printed)
    {
        var key = Base32Encoding.ToString(Encoding.ASCII.GetBytes("12345678901234567890"));
        var stored = new OneTimeCodeKey { SealedKey = "not asked" };
        var now = DateTimeOffset.FromUnixTimeSeconds(seconds);
        stored.StepOf(key, printed[2..], now).ShouldBe(seconds / 30);
        stored.StepOf(key, printed[2..], now.AddSeconds(61)).ShouldBeNull("it is too old");
        stored.LastStep = seconds / 30;
        stored.StepOf(key, printed[2..], now).ShouldBeNull("it was used");
    }

    [Theory]
    [EachDatabase]
    public async Task Once_set_up_the_password_alone_opens_nothing_and_a_code_is_good_once(DatabaseKind kind)
    {
        await using var laboratory = await OpenedSmallLaboratory.OpenAsync(kind);
        var person = laboratory.Small.People.QualityManager;
        var desk = new SecondFactorDesk(laboratory, person);
        (await desk.SetUpCodesAsync()).Count.ShouldBe(8);
        var (code, actor) = (desk.Code, await desk.SignOnAsync());
        (await laboratory.Get<Sessions>().LookAsync(actor.SessionId!.Value, default))!.Way.ShouldBe(SignOnWay.PasswordAndCode);
        await SecondFactorDesk.ShouldRefuseAsync("code-wrong", () => desk.SignOnAsync(code));
        await SecondFactorDesk.ShouldRefuseAsync("code-wrong", () => desk.SignOnAsync("000000"));
        laboratory.Running.Clock.Advance(TimeSpan.FromSeconds(30));
        await desk.SignOnAsync();
    }

    [Theory]
    [EachDatabase]
    public async Task The_second_step_cannot_be_taken_without_the_first_nor_twice_nor_late(DatabaseKind kind)
    {
        await using var laboratory = await OpenedSmallLaboratory.OpenAsync(kind);
        var desk = new SecondFactorDesk(laboratory, laboratory.Small.People.QualityManager);
        await desk.SetUpCodesAsync();
        await laboratory.ShouldRefuseAsync("first-step-missing", () => laboratory.Get<SecondStep>().FinishAsync("made up", desk.Code, SecondFactorDesk.Office, default));
        var handle = await desk.FirstStepAsync();
        await laboratory.Get<SecondStep>().FinishAsync(handle, desk.Code, SecondFactorDesk.Office, default);
        laboratory.Running.Clock.Advance(TimeSpan.FromSeconds(30));
        await laboratory.ShouldRefuseAsync("first-step-missing", () => laboratory.Get<SecondStep>().FinishAsync(handle, desk.Code, SecondFactorDesk.Office, default));
        var late = await desk.FirstStepAsync();
        laboratory.Running.Clock.Advance(TimeSpan.FromMinutes(6));
        await laboratory.ShouldRefuseAsync("first-step-missing", () => laboratory.Get<SecondStep>().FinishAsync(late, desk.Code, SecondFactorDesk.Office, default));
    }

    [Theory]
    [EachDatabase]
    public async Task A_recovery_code_works_once_and_new_ones_end_the_old(DatabaseKind kind)
    {
        await using var laboratory = await OpenedSmallLaboratory.OpenAsync(kind);
        var person = laboratory.Small.People.QualityManager;
        var desk = new SecondFactorDesk(laboratory, person);
        var codes = await desk.SetUpCodesAsync();
        await desk.SignOnAsync(codes[0].ToLowerInvariant());
        await SecondFactorDesk.ShouldRefuseAsync("code-wrong", () => desk.SignOnAsync(codes[0]));
        (await laboratory.Get<SecondFactors>().MineAsync(person.Actor, default)).RecoveryCodesLeft.ShouldBe(7);
        var fresh = await laboratory.Get<SecondFactors>().RenewRecoveryCodesAsync(person.Actor, await laboratory.Small.ProofAsync(person), default);
        await SecondFactorDesk.ShouldRefuseAsync("code-wrong", () => desk.SignOnAsync(codes[1]));
        await desk.SignOnAsync(fresh[7]);
    }

    [Theory]
    [EachDatabase]
    public async Task Wrong_codes_are_counted_like_wrong_passwords(DatabaseKind kind)
    {
        await using var laboratory = await OpenedSmallLaboratory.OpenAsync(kind);
        var desk = new SecondFactorDesk(laboratory, laboratory.Small.People.QualityManager);
        await desk.SetUpCodesAsync();
        var handle = await desk.FirstStepAsync();
        for (var wrong = 0; wrong < SecretTries.Free; wrong++)
        {
            await SecondFactorDesk.ShouldRefuseAsync("code-wrong", () => laboratory.Get<SecondStep>().FinishAsync(handle, "123 456", SecondFactorDesk.Office, default));
        }

        await laboratory.ShouldRefuseAsync("wait", () => laboratory.Get<SecondStep>().FinishAsync(handle, desk.Code, SecondFactorDesk.Office, default));
    }

    [Theory]
    [EachDatabase]
    public async Task Until_a_first_code_came_nothing_is_asked_and_a_wrong_one_switches_nothing_on(DatabaseKind kind)
    {
        await using var laboratory = await OpenedSmallLaboratory.OpenAsync(kind);
        var (person, factors) = (laboratory.Small.People.Technician, laboratory.Get<SecondFactors>());
        await factors.MakeCodeKeyAsync(person.Actor, await laboratory.Small.ProofAsync(person), default);
        await SecondFactorDesk.ShouldRefuseAsync("code-wrong", () => factors.ConfirmCodeKeyAsync(person.Actor, "000000", default));
        await laboratory.Get<SignOn>().SignOnAsync(person.SignOnName, person.Password, SecondFactorDesk.Office, default);
        await laboratory.ShouldRefuseAsync("no-code-key", () => factors.ConfirmCodeKeyAsync(laboratory.Small.People.Reviewer.Actor, "000000", default));
    }

    [Theory]
    [EachDatabase]
    public async Task A_lost_device_is_taken_away_by_the_administrator_and_the_sessions_end(DatabaseKind kind)
    {
        await using var laboratory = await OpenedSmallLaboratory.OpenAsync(kind);
        var people = laboratory.Small.People;
        var desk = new SecondFactorDesk(laboratory, people.QualityManager);
        await desk.SetUpCodesAsync();
        var actor = await desk.SignOnAsync();
        await laboratory.Get<SecondFactors>().TakeAwayAsync(people.Administrator.Actor, people.QualityManager.Id, "The telephone fell into the mill", default);
        await laboratory.ShouldRefuseAsync("session-over", () => laboratory.Get<SecondFactors>().MineAsync(actor, default));
        await laboratory.Get<SignOn>().SignOnAsync(people.QualityManager.SignOnName, people.QualityManager.Password, SecondFactorDesk.Office, default);
    }

    [Theory]
    [EachDatabase]
    public async Task Where_it_is_demanded_a_session_without_one_decides_and_administers_nothing(DatabaseKind kind)
    {
        await using var laboratory = await OpenedSmallLaboratory.OpenAsync(kind);
        var (people, factors) = (laboratory.Small.People, laboratory.Get<SecondFactors>());
        await laboratory.ShouldRefuseAsync("own-second-factor", () => factors.ChangeDemandAsync(people.Administrator.Actor, true, "The pages are reached from outside", 0, default));
        var office = new SecondFactorDesk(laboratory, people.Administrator);
        await office.SetUpCodesAsync();
        var administrator = await office.SignOnAsync();
        await factors.ChangeDemandAsync(administrator, true, "The pages are reached from outside", 0, default);
        await laboratory.Get<Accounts>().AllAsync(administrator, default);

        var without = new Actor(people.QualityManager.Id, "Office", (await laboratory.Get<SignOn>().SignOnAsync(people.QualityManager.SignOnName, people.QualityManager.Password, new("Desk"), default)).SessionId);
        var standing = await laboratory.Get<ReadPath>().StandingOfAsync(without, default);
        standing.Permissions.ShouldNotContain(Permission.DecideLots);
        standing.Permissions.ShouldContain(Permission.SeeLaboratory);
        Should.Throw<SecondFactorMissingException>(() => standing.Require(Permission.DecideLots)).Message.ShouldContain("Set one up under Your account");

        var desk = new SecondFactorDesk(laboratory, people.QualityManager);
        await desk.SetUpCodesAsync();
        (await laboratory.Get<ReadPath>().StandingOfAsync(await desk.SignOnAsync(), default)).Permissions.ShouldContain(Permission.DecideLots);
    }
}
