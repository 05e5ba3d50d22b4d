using ParticleLims.Laboratory.People;
using ParticleLims.Laboratory.Record;
using ParticleLims.Laboratory.Terminals;

namespace ParticleLims.Laboratory.Tests.People;

/// <summary>PIN and badge: at enrolled terminals only, counted with the passwords, and never for a signature.</summary>
public sealed class PinTests
{
    private const string Pin = "482913";

    [Theory]
    [EachDatabase]
    public async Task A_pin_works_at_an_enrolled_terminal_and_nowhere_else(DatabaseKind kind)
    {
        await using var laboratory = await OpenedSmallLaboratory.OpenAsync(kind);
        var (small, person) = (laboratory.Small, laboratory.Small.People.Technician);
        var terminal = await small.EnrolAsync("Bench 1");
        await small.SetPinAsync(person, Pin);
        var pins = small.Get<PinSignOn>();
        var tiles = (await pins.TilesAsync(terminal.Seen, default)).ConvertAll(tile => tile.FullName);
        tiles.ShouldContain(person.FullName);
        tiles.ShouldNotContain(small.People.Customer.FullName);
        (await pins.TilesAsync(new TerminalSeen("T-1"), default)).ShouldBeEmpty();
        await laboratory.ShouldRefuseAsync("terminal-not-enrolled", () => pins.SignOnAsync(new TerminalSeen("T-1"), person.Id, null, Pin, default));
        (await small.Get<Sessions>().LookAsync((await terminal.SignOnAsync(person, Pin)).SessionId!.Value, default))!.Way.ShouldBe(SignOnWay.NameAndPin);

        await small.Get<TerminalRegister>().WithdrawAsync(small.People.Administrator.Actor, terminal.Seen.Id!.Value, "The machine is broken", 1, default);
        await laboratory.ShouldRefuseAsync("terminal-not-enrolled", () => pins.SignOnAsync(terminal.Seen, person.Id, null, Pin, default));
    }

    [Theory]
    [EachDatabase]
    public async Task Wrong_pins_count_with_wrong_passwords_and_after_ten_the_pin_is_blocked_until_the_password_was_given(DatabaseKind kind)
    {
        await using var laboratory = await OpenedSmallLaboratory.OpenAsync(kind);
        var (small, person) = (laboratory.Small, laboratory.Small.People.Technician);
        var terminal = await small.EnrolAsync("Bench 1");
        await small.SetPinAsync(person, Pin);
        for (var wrong = 0; wrong < PinRules.WrongTries; wrong++)
        {
            var refusal = await Should.ThrowAsync<RefusedException>(() => wrong % 2 == 0 ? terminal.SignOnAsync(person, "000111") : small.Get<SignOn>().SignOnAsync(person.SignOnName, "wrong", terminal.Seen, default));
            refusal.Code.ShouldBe("secret-wrong");
            laboratory.Running.Clock.Advance(TimeSpan.FromMinutes(15));
        }

        await laboratory.ShouldRefuseAsync("pin-blocked", () => terminal.SignOnAsync(person, Pin));
        await terminal.SignOnWithPasswordAsync(person);
        await terminal.SignOnAsync(person, Pin);
        for (var wrong = 0; wrong < SecretTries.Free; wrong++)
        {
            await Should.ThrowAsync<RefusedException>(() => terminal.SignOnAsync(person, "000111"));
        }

        await laboratory.ShouldRefuseAsync("wait", () => terminal.SignOnAsync(person, Pin));
        await laboratory.ShouldRefuseAsync("wait", () => terminal.SignOnWithPasswordAsync(person));
    }

    [Fact]
    public async Task Many_guesses_at_once_are_no_way_round_the_count()
    {
        await using var laboratory = await OpenedSmallLaboratory.OpenAsync(DatabaseKind.Sqlite);
        var (small, person) = (laboratory.Small, laboratory.Small.People.Technician);
        var terminal = await small.EnrolAsync("Bench 1");
        await small.SetPinAsync(person, Pin);
        var codes = await Task.WhenAll(Enumerable.Range(0, 40).Select(_ => Task.Run(async () => (await Should.ThrowAsync<RefusedException>(() => terminal.SignOnAsync(person, "000111"))).Code)));
        codes.Count(code => code == "secret-wrong").ShouldBe(SecretTries.Free, "the clock stands still, so the rest has to wait");
        codes.Count(code => code == "wait").ShouldBe(codes.Length - SecretTries.Free);
    }

    [Theory]
    [EachDatabase]
    public async Task A_pin_signs_nothing_and_opens_no_power_of_the_office(DatabaseKind kind)
    {
        await using var laboratory = await OpenedSmallLaboratory.OpenAsync(kind);
        var small = laboratory.Small;
        var (reviewer, administrator) = (small.People.Reviewer, small.People.Administrator);
        var terminal = await small.EnrolAsync("Bench 1");
        await small.SetPinAsync(reviewer, Pin);
        await small.SetPinAsync(administrator, Pin);
        var lot = await (await small.BookInAsync(small.Calcite)).SubmitAsync(Powder.Calcite);

        var actor = await terminal.SignOnAsync(reviewer, Pin);
        var refusal = await Should.ThrowAsync<RefusedException>(() => small.Get<ISecretCheck>().ProveAsync(actor, Pin, default));
        refusal.Code.ShouldBe("secret-wrong");
        var version = (await small.Bench().ViewAsync(lot.RunId)).Run.Version;
        await small.Get<Laboratory.Review.RunChanges>().OpenAsync(actor, lot.RunId, default);
        await small.Get<Laboratory.Review.RunReview>().AcceptAsync(actor, lot.RunId, await small.Get<ISecretCheck>().ProveAsync(actor, reviewer.Password, default), version, default);

        var office = await terminal.SignOnAsync(administrator, Pin);
        (await laboratory.ShouldRefuseAsync("not-permitted", () => small.Get<Accounts>().AllAsync(office, default))).Message.ShouldContain("signed on with a PIN");
        var byPassword = await terminal.SignOnWithPasswordAsync(administrator);
        (await small.Get<Accounts>().AllAsync(byPassword, default)).ShouldNotBeEmpty();
    }

    [Theory]
    [EachDatabase]
    public async Task A_badge_names_its_holder_until_it_is_revoked(DatabaseKind kind)
    {
        await using var laboratory = await OpenedSmallLaboratory.OpenAsync(kind);
        var (small, person, by) = (laboratory.Small, laboratory.Small.People.Technician, laboratory.Small.People.Administrator.Actor);
        var (terminal, pins, badges) = (await small.EnrolAsync("Bench 1"), small.Get<PinSignOn>(), small.Get<Badges>());
        await small.SetPinAsync(person, Pin);
        var issued = await badges.IssueAsync(by, person.Id, default);
        (await laboratory.LastEventAsync()).Changes.ShouldNotContain(issued.Code);
        var seen = await pins.ReadBadgeAsync(terminal.Seen, issued.Code.ToLowerInvariant(), default);
        seen.FullName.ShouldBe(person.FullName);
        await Should.ThrowAsync<RefusedException>(() => terminal.SignOnAsync(small.People.SecondTechnician, Pin, seen.BadgeId));
        var actor = await terminal.SignOnAsync(person, Pin, seen.BadgeId);

        await badges.RevokeAsync(by, seen.BadgeId, "Lost on the way home", default);
        (await Should.ThrowAsync<RefusedException>(() => pins.ReadBadgeAsync(terminal.Seen, issued.Code, default))).Code.ShouldBe("badge-unknown");
        (await laboratory.LastEventAsync()).Code.ShouldBe("people.badge-refused");
        await laboratory.ShouldRefuseAsync("badge-unknown", () => terminal.SignOnAsync(person, Pin, seen.BadgeId));
        await laboratory.ShouldRefuseAsync("session-over", () => small.Get<Laboratory.Sieves.SieveRegister>().AllAsync(actor, default));
        await laboratory.ShouldRefuseAsync("badge-not-for", () => badges.IssueAsync(by, small.People.Customer.Id, default));
    }

    [Theory]
    [InlineData("12345")]
    [InlineData("1234567890123")]
    [InlineData("48291x")]
    [InlineData("٤٨٢٩١٣")]
    public void A_pin_has_six_to_twelve_digits(string pin) => Should.Throw<RefusedException>(() => PinRules.Require(pin)).Code.ShouldBe("pin");

    [Theory]
    [InlineData("111111")]
    [InlineData("123456")]
    [InlineData("987654")]
    [InlineData("890123")]
    [InlineData("121212")]
    [InlineData("482482")]
    public void A_pin_that_is_guessed_first_is_refused(string pin) => Should.Throw<RefusedException>(() => PinRules.Require(pin)).Code.ShouldBe("pin-guessable");

    [Theory]
    [InlineData("482913")]
    [InlineData("70355918")]
    public void Another_pin_is_taken(string pin) => Should.NotThrow(() => PinRules.Require(pin));
}
