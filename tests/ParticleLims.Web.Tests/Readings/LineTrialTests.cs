using ParticleLims.Instruments.Readings;
using ParticleLims.Laboratory.Balances;
using ParticleLims.Web.Readings;
using Shouldly;
using Xunit;

namespace ParticleLims.Web.Tests.Readings;

public sealed class LineTrialTests
{
    private static readonly ReadingFormatCard Plain = FirstReadingFormats.All[0].Card();

    [Fact]
    public void The_first_formats_of_a_laboratory_are_those_that_the_simulated_balance_speaks() =>
        FirstReadingFormats.All.Select(format => KnownFormats.Of(format.Card())).ShouldBe([PlainLine.Format, PlainLine.FormatWithChecksum]);

    [Fact]
    public void Each_pasted_line_is_shown_as_it_would_be_read_or_with_why_not()
    {
        var tried = LineTrial.Of(Plain, "S +   312.3450 g 0417\r\nU -     0.0200 g 0417\n\nS +   312,3450 g 0417\nO +----------- g 0417\nS +   312.3450 lb 0417\nS +   312.3450 g 0582\n", "0417");
        tried.Select(line => line.State).ShouldBe(["stable", "unstable", "refused", "refused", "refused", "refused", "refused"]);
        tried[0].ShouldBe(new TriedLine("S +   312.3450 g 0417", "good", "stable", "312.3450 g, from 0417"));
        tried[1].Words.ShouldBe("-0.0200 g, from 0417");
        tried[2].Words.ShouldBe("The line is empty.");
        tried[3].Words.ShouldContain("decimal mark ','");
        tried[4].Words.ShouldContain("overloaded");
        tried[5].Words.ShouldContain("'lb'");
        tried[6].Words.ShouldContain("expected is '0417'");
        LineTrial.Of(Plain, "S +   312.3450 g 0582", " ").ShouldHaveSingleItem().State.ShouldBe("stable");
    }

    [Fact]
    public void Nothing_is_tried_by_a_format_that_cannot_be_used_or_without_lines()
    {
        LineTrial.Of(Plain with { Pattern = "(" }, "S +   312.3450 g 0417", string.Empty).ShouldBeEmpty();
        LineTrial.Of(Plain, string.Empty, string.Empty).ShouldBeEmpty();
        LineTrial.Of(Plain, string.Join('\n', Enumerable.Repeat("x", 500)), string.Empty).Count.ShouldBe(LineTrial.Most);
    }

    [Fact]
    public void What_is_kept_comes_back_into_the_form_unchanged()
    {
        foreach (var kept in FirstReadingFormats.All)
        {
            new ReadingFormatSheet(kept).Card().ShouldBe(kept.Card());
        }

        new FormatCheck().ProblemsOf(new ReadingFormatSheet(null).Card() with { Name = "new" }).ShouldBeEmpty("the form starts with a pattern that works");
    }
}
