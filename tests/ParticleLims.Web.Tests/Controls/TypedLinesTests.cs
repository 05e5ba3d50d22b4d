using ParticleLims.Web.Controls;
using Shouldly;
using Xunit;

namespace ParticleLims.Web.Tests.Controls;

public sealed class TypedLinesTests
{
    private readonly TypedLines lines = new();
    private readonly List<string> looked = [];

    [Fact]
    public void A_line_that_a_balance_takes_is_no_code()
    {
        using var looking = lines.LookFirst(Take);
        lines.IsLeft(new TypedLine("S + 1.000 g"), 1).ShouldBeFalse();
        lines.IsLeft(new TypedLine("SV-0063-A"), 2).ShouldBeTrue();
    }

    [Fact]
    public void A_line_heard_by_several_parts_of_a_page_is_looked_at_once_and_answered_to_each()
    {
        using var looking = lines.LookFirst(Take);
        lines.IsLeft(new TypedLine("S + 1.000 g"), 1).ShouldBeFalse();
        lines.IsLeft(new TypedLine("S + 1.000 g"), 1).ShouldBeFalse();
        lines.IsLeft(new TypedLine("S + 1.000 g"), 2).ShouldBeFalse();
        looked.Count.ShouldBe(2);
    }

    [Fact]
    public void Nobody_looks_any_more_after_leaving()
    {
        lines.LookFirst(Take).Dispose();
        lines.IsLeft(new TypedLine("S + 1.000 g"), 1).ShouldBeTrue();
        looked.ShouldBeEmpty();
    }

    [Fact]
    public void An_empty_or_endless_line_reaches_nobody()
    {
        using var looking = lines.LookFirst(Take);
        lines.IsLeft(new TypedLine(string.Empty), 1).ShouldBeFalse();
        lines.IsLeft(new TypedLine(new string('7', TypedLines.Longest + 1)), 2).ShouldBeFalse();
        looked.ShouldBeEmpty();
    }

    private bool Take(TypedLine line)
    {
        looked.Add(line.Text);
        return line.Text.StartsWith("S ", StringComparison.Ordinal);
    }
}
