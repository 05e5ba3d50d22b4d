using ParticleLims.Web.Runs;
using Shouldly;
using Xunit;

namespace ParticleLims.Web.Tests.Runs;

public sealed class RunSeatsTests
{
    private readonly RunSeats seats = new();
    private readonly Guid run = Guid.CreateVersion7();
    private readonly object one = new();
    private readonly object other = new();

    [Fact]
    public void Only_the_screen_that_sat_down_last_acts_by_itself()
    {
        seats.Take(run, one, "Tom").ShouldBeTrue();
        seats.Take(run, one, "Tom").ShouldBeFalse();
        seats.Take(run, other, "Nia").ShouldBeTrue();
        seats.Has(run, one).ShouldBeFalse();
        seats.OtherThan(run, one).ShouldBe("Nia");
        seats.OtherThan(run, other).ShouldBeNull();
    }

    [Fact]
    public void A_screen_that_came_back_by_itself_leaves_the_seat_to_who_sits_there()
    {
        seats.TakeIfFree(run, one, "Tom").ShouldBeTrue();
        seats.Take(run, other, "Nia").ShouldBeTrue();
        seats.TakeIfFree(run, one, "Tom").ShouldBeFalse();
        seats.OtherThan(run, one).ShouldBe("Nia");
        seats.Has(run, other).ShouldBeTrue();
    }

    [Fact]
    public void Leaving_frees_only_ones_own_seat()
    {
        seats.Take(run, one, "Tom");
        seats.Leave(run, other);
        seats.Has(run, one).ShouldBeTrue();
        seats.Leave(run, one);
        seats.Has(run, one).ShouldBeFalse();
        seats.OtherThan(run, other).ShouldBeNull();
    }

    [Fact]
    public void A_change_is_told_to_the_others_until_they_leave()
    {
        var changes = new RunChanges();
        var heard = new List<string>();
        using var mine = changes.Subscribe(run, () => heard.Add("mine"));
        using var list = changes.Subscribe(null, () => heard.Add("list"));
        using var elsewhere = changes.Subscribe(Guid.CreateVersion7(), () => heard.Add("another run"));
        var second = changes.Subscribe(run, () => heard.Add("second"));
        changes.Tell(run, mine);
        heard.ShouldBe(["list", "second"]);
        second.Dispose();
        changes.Tell(run);
        heard.ShouldBe(["list", "second", "mine", "list"]);
    }
}
