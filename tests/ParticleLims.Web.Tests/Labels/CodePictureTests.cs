using System.Globalization;
using System.Text.RegularExpressions;
using ParticleLims.Web.Labels;
using QRCoder;
using Shouldly;
using Xunit;

namespace ParticleLims.Web.Tests.Labels;

public sealed partial class CodePictureTests
{
    [Fact]
    public void Every_dark_module_of_the_symbol_is_drawn_and_no_other()
    {
        using var symbol = new QRCodeGenerator().CreateQrCode("S-26-00123", QRCodeGenerator.ECCLevel.M);
        var drawn = Module().Matches(CodePicture.Svg("S-26-00123", "code")).Select(one => (Row: Number(one, "row"), Column: Number(one, "column"))).ToHashSet();
        for (var row = 0; row < symbol.ModuleMatrix.Count; row++)
        {
            for (var column = 0; column < symbol.ModuleMatrix.Count; column++)
            {
                drawn.Contains((row, column)).ShouldBe(symbol.ModuleMatrix[row][column]);
            }
        }
    }

    [Fact]
    public void The_quiet_zone_of_four_modules_stays_free()
    {
        var svg = CodePicture.Svg("S-26-00123", "code");
        var size = int.Parse(Size().Match(svg).Groups["size"].Value, CultureInfo.InvariantCulture);
        Module().Matches(svg).SelectMany(one => new[] { Number(one, "row"), Number(one, "column") }).ShouldAllBe(place => place >= 4 && place < size - 4);
    }

    [Fact]
    public void The_code_is_named_for_those_who_cannot_see_it() => CodePicture.Svg("S-26-00123", "code").ShouldContain("<title id='code'>Code S-26-00123</title>");

    private static int Number(Match match, string group) => int.Parse(match.Groups[group].Value, CultureInfo.InvariantCulture);

    [GeneratedRegex(@"M(?<column>\d+) (?<row>\d+)h1v1h-1z", RegexOptions.ExplicitCapture, matchTimeoutMilliseconds: 5_000)]
    private static partial Regex Module();

    [GeneratedRegex(@"viewBox='0 0 (?<size>\d+) ", RegexOptions.ExplicitCapture, matchTimeoutMilliseconds: 5_000)]
    private static partial Regex Size();
}
