using Bunit;
using ParticleLims.Analysis.Quantities;
using ParticleLims.Web.Controls;
using Shouldly;
using Xunit;

namespace ParticleLims.Web.Tests.Controls;

public sealed class SayTests
{
    [Fact]
    public void A_mass_is_said_in_grams_as_the_balance_shows_it()
    {
        Say.Grams(Mass.FromMicrograms(12_345_600), 4).ShouldBe("12.3456 g");
        Say.Grams(Mass.FromMicrograms(12_345_500), 3).ShouldBe("12.346 g");
        Say.Grams(null).ShouldBe("–");
    }

    [Fact]
    public void An_aperture_is_said_in_micrometres_without_idle_zeros()
    {
        Say.Micrometres(Aperture.FromNanometres(63_000)).ShouldBe("63 µm");
        Say.Micrometres(Aperture.FromNanometres(112_500)).ShouldBe("112.5 µm");
    }

    [Fact]
    public void A_percentage_is_rounded_once() => Say.Percent(Ratio.Of(199, 2), 0).ShouldBe("100 %");

    [Fact]
    public void Times_and_counts_are_said_as_people_say_them()
    {
        Say.Seconds(45).ShouldBe("45 s");
        Say.Seconds(185).ShouldBe("3 min 05 s");
        Say.Count(1, "run", "runs").ShouldBe("1 run");
        Say.Count(0, "run", "runs").ShouldBe("0 runs");
    }

    [Theory]
    [InlineData(0, "0 bytes")]
    [InlineData(1, "1 byte")]
    [InlineData(999, "999 bytes")]
    [InlineData(1_000, "1.0 kB")]
    [InlineData(74_438, "74.4 kB")]
    [InlineData(999_949, "999.9 kB")]
    [InlineData(999_950, "1.0 MB")]
    [InlineData(5_242_880, "5.2 MB")]
    public void A_small_file_is_said_in_bytes_and_never_as_nothing(long bytes, string words) => Say.Size(bytes).ShouldBe(words);

    [Theory]
    [InlineData("good", "circle")]
    [InlineData("bad", "path")]
    public void A_state_is_a_shape_and_a_word_whatever_its_colour(string kind, string shape)
    {
        using var context = new BunitContext();
        var chip = context.Render<StateChip>(parameters => parameters.Add(one => one.Kind, kind).Add(one => one.Text, "released"));
        chip.Find("span").TextContent.ShouldBe("released");
        chip.Find("svg").GetAttribute("aria-hidden").ShouldBe("true");
        chip.FindAll("svg " + shape).ShouldNotBeEmpty();
    }
}
