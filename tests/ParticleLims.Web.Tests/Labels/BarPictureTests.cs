using System.Globalization;
using System.Text.RegularExpressions;
using ParticleLims.Web.Labels;
using Shouldly;
using Xunit;
using ZXing.Common;
using ZXing.OneD;

namespace ParticleLims.Web.Tests.Labels;

public sealed partial class BarPictureTests
{
    [Theory]
    [InlineData("TS-063-2")]
    [InlineData("S-26-00123")]
    [InlineData("B 0417/a~")]
    [InlineData("1234567890")]
    public void The_drawn_bars_read_back_as_the_code(string code)
    {
        var svg = BarPicture.Svg(code, "bars");
        var width = int.Parse(Width().Match(svg).Groups["n"].Value, CultureInfo.InvariantCulture);
        var row = new BitArray(width);
        foreach (Match bar in Bar().Matches(svg))
        {
            row[int.Parse(bar.Groups["n"].Value, CultureInfo.InvariantCulture)] = true;
        }

        Enumerable.Range(0, 10).ShouldAllBe(module => !row[module] && !row[width - 1 - module], "ten modules of quiet on either side");
        new Code128Reader().decodeRow(0, row, null).ShouldNotBeNull().Text.ShouldBe(code);
    }

    [Theory]
    [InlineData("")]
    [InlineData("Sieb-µ63")]
    [InlineData("12345678901234567890123456789012345678901")]
    public void What_the_bars_cannot_hold_gets_none(string code)
    {
        BarPicture.Holds(code).ShouldBeFalse();
        Should.Throw<ArgumentException>(() => BarPicture.Svg(code, "bars"));
    }

    [GeneratedRegex("viewBox='0 0 (?<n>\\d+) ", RegexOptions.ExplicitCapture, 1000)]
    private static partial Regex Width();

    [GeneratedRegex("M(?<n>\\d+) 0h1v", RegexOptions.ExplicitCapture, 1000)]
    private static partial Regex Bar();
}
