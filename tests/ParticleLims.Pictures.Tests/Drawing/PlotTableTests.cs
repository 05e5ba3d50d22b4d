using ParticleLims.Pictures.Drawing;
using Shouldly;
using Xunit;

namespace ParticleLims.Pictures.Tests.Drawing;

public sealed class PlotTableTests
{
    [Theory]
    [InlineData("63 µm", "63 µm")]
    [InlineData("-1.5", "-1.5")]
    [InlineData("1E-07", "1E-07")]
    [InlineData("=2+3", "'=2+3")]
    [InlineData("-2+3", "'-2+3")]
    [InlineData("@now", "'@now")]
    [InlineData("a, b", "\"a, b\"")]
    [InlineData("say \"so\"", "\"say \"\"so\"\"\"")]
    [InlineData("one\ntwo", "\"one\ntwo\"")]
    public void A_cell_is_text_or_a_number_to_every_spreadsheet(string cell, string written) =>
        new PlotTable(["what"], [[cell]]).ToCsv().ShouldBe($"what\r\n{written}\r\n");

    [Fact]
    public void Numbers_keep_seven_digits_and_a_missing_one_is_empty()
    {
        PlotTable.Cell(100.0 / 3).ShouldBe("33.33333");
        PlotTable.Cell(-0.00012345, 4).ShouldBe("-0.0001");
        PlotTable.Cell(null).ShouldBe(string.Empty);
    }

    [Fact]
    public void A_column_in_which_nothing_stands_can_be_left_out()
    {
        var table = new PlotTable(["a", "b", "c"], [["1", "", "x"], ["2", "", ""]]).WithoutEmptyColumns();
        table.Columns.ShouldBe(["a", "c"]);
        table.Rows.ShouldBe([["1", "x"], ["2", ""]]);
        new PlotTable(["a"], []).WithoutEmptyColumns().Columns.ShouldBeEmpty();
    }
}
