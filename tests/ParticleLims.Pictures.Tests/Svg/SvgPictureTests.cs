using System.Globalization;
using System.Xml.Linq;
using CsCheck;
using ParticleLims.Pictures.Drawing;
using ParticleLims.Pictures.Plots;
using ParticleLims.Pictures.Svg;
using ParticleLims.Pictures.Tests.Plots;
using Shouldly;
using Xunit;

namespace ParticleLims.Pictures.Tests.Svg;

public sealed class SvgPictureTests
{
    private static readonly XNamespace _svg = "http://www.w3.org/2000/svg";

    [Fact]
    public void The_same_plot_gives_the_same_text_in_every_culture()
    {
        var plot = new DistributionCurvePlot(Examples.Full);
        var texts = new[] { string.Empty, "de-DE", "ar-SA", "tr-TR", "fa-IR" }.Select(culture => InCulture(culture, () => SvgPicture.ForPage(plot, PlotLayout.Page, "curve"))).Distinct().ToList();
        texts.Count.ShouldBe(1);
        texts[0].ShouldNotContain("\r");
    }

    [Fact]
    public void The_picture_has_a_name_a_description_and_readable_points()
    {
        var root = Page(Examples.Full);
        root.Attribute("viewBox")!.Value.ShouldBe("0 0 760 430");
        var picture = root.Elements(_svg + "g").Single(group => group.Attribute("aria-labelledby") is not null);
        picture.Attribute("role")!.Value.ShouldBe("img");
        foreach (var id in picture.Attribute("aria-labelledby")!.Value.Split(' '))
        {
            root.Elements().ShouldContain(element => element.Attribute("id") != null && element.Attribute("id")!.Value == id && element.Value.Length > 10);
        }

        var readings = root.Elements(_svg + "g").Where(group => group.Attribute("tabindex")?.Value == "0").ToList();
        readings.Select(reading => reading.Attribute("aria-label")!.Value).ShouldBe(readings.Select(reading => reading.Element(_svg + "title")!.Value));
        readings.Count.ShouldBe(Examples.Points.Count);
        picture.Descendants().ShouldNotContain(element => element.Attribute("tabindex") != null);
    }

    [Fact]
    public void Every_colour_is_a_custom_property_of_the_theme_with_a_fallback()
    {
        var text = SvgPicture.ForPage(new DistributionCurvePlot(Examples.Full), PlotLayout.Page, "curve");
        text.ShouldContain("var(--plot-curve,#24788F)");
        text.ShouldContain("var(--plot-text,currentColor)");
        foreach (var ink in Enum.GetValues<PlotInk>())
        {
            SvgPalette.StyleSheet.ShouldContain($".plot .{SvgPalette.ClassOf(ink)}{{");
        }

        Page(Examples.Full).Descendants(_svg + "text").ShouldAllBe(element => element.Attribute("class")!.Value == "plot-text");
    }

    [Fact]
    public void Fallback_colours_can_be_seen_on_white_and_on_near_black()
    {
        // Contrast of at least 3:1 for graphics: WCAG 2.2, success criterion 1.4.11; relative luminance as defined there.
        var colours = SvgPalette.StyleSheet.Split('#').Skip(1).Select(rest => "#" + rest[..6]).Distinct().ToList();
        colours.Count.ShouldBeGreaterThan(4);
        colours.ShouldAllBe(colour => Contrast(Luminance(colour), 1) >= 3 && Contrast(Luminance(colour), Luminance("#161C20")) >= 3);
    }

    [Fact]
    public void Texts_of_people_stay_texts()
    {
        const string Hostile = "</title><script>alert(1)</script>\" onload='x' & \u0001 \u202E";
        var curve = Examples.Full with
        {
            Title = Hostile,
            Others = [new OtherCurve(Hostile, Examples.Points)],
            Gates = [CurveGate.AtAperture(Hostile, 63, 50, null)],
            Percentiles = [new PercentileMark(Hostile, 50, 39)],
        };
        var root = Page(curve);
        root.Descendants().ShouldNotContain(element => element.Name.LocalName == "script");
        root.DescendantsAndSelf().Attributes().ShouldNotContain(attribute => attribute.Name.LocalName.StartsWith("on", StringComparison.OrdinalIgnoreCase));
        root.Element(_svg + "title")!.Value.ShouldBe(Hostile.Replace('\u0001', '\uFFFD'));
    }

    [Fact]
    public void Any_text_at_all_gives_well_formed_markup()
    {
        Gen.String.Sample(text =>
        {
            var root = Page(Examples.Of(new CurvePoint(63, 50)) with { Title = text, Percentiles = [new PercentileMark(text, 50, 63)] });
            root.Name.LocalName.ShouldBe("svg");
        });
    }

    [Fact]
    public void Two_pictures_on_a_page_share_no_id()
    {
        var plot = new DistributionCurvePlot(Examples.Full);
        var ids = new[] { "run", "lot" }.SelectMany(id => XElement.Parse(SvgPicture.ForPage(plot, PlotLayout.Narrow, id)).DescendantsAndSelf().Attributes("id")).Select(id => id.Value).ToList();
        ids.ShouldBeUnique();
        ids.Count.ShouldBeGreaterThan(6);
    }

    [Theory]
    [InlineData("")]
    [InlineData("1st")]
    [InlineData("a b")]
    [InlineData("a\"onload")]
    public void An_id_that_could_break_out_is_refused(string id) =>
        Should.Throw<ArgumentException>(() => SvgPicture.ForPage(new DistributionCurvePlot(Examples.Full), PlotLayout.Page, id));

    [Fact]
    public void A_file_stands_alone_on_a_white_ground()
    {
        var root = XDocument.Parse(SvgPicture.ForFile(NetPlot.RosinRammler(new Net { Title = "Net", Points = Examples.Points }), PlotLayout.Page)).Root!;
        root.Element(_svg + "rect")!.Attribute("fill")!.Value.ShouldBe("#FFFFFF");
        root.Attribute("color")!.Value.ShouldBe("#22313A");
    }

    [Fact]
    public void Numbers_are_short_and_the_frame_stands_where_it_should()
    {
        var root = Page(Examples.Of(new CurvePoint(63, 50)));
        var lengths = root.Descendants(_svg + "line").Attributes().Where(attribute => attribute.Name.LocalName is "x1" or "x2" or "y1" or "y2").Select(attribute => attribute.Value).ToList();
        lengths.Count.ShouldBeGreaterThan(40);
        lengths.ShouldAllBe(length => length.All(letter => char.IsAsciiDigit(letter) || letter == '.') && (length + ".").Split('.', StringSplitOptions.None)[1].Length <= 2);
        var disc = root.Descendants(_svg + "circle").Single(circle => circle.Ancestors().Any(parent => parent.Attribute("tabindex") != null) && circle.Attribute("class")!.Value.Contains("plot-shape", StringComparison.Ordinal));
        var sides = root.Descendants(_svg + "line").Where(line => line.Attribute("class")!.Value == "plot-line plot-axis" && Value(line, "x1") == Value(line, "x2"));
        var side = sides.MaxBy(line => Math.Abs(Value(line, "y1") - Value(line, "y2")))!;
        Value(disc, "cy").ShouldBe((Value(side, "y1") + Value(side, "y2")) / 2, 0.01);
    }

    private static double Value(XElement element, string name) => double.Parse(element.Attribute(name)!.Value, CultureInfo.InvariantCulture);

    private static XElement Page(DistributionCurve curve) => XElement.Parse(SvgPicture.ForPage(new DistributionCurvePlot(curve), PlotLayout.Page, "curve"));

    private static string InCulture(string culture, Func<string> draw)
    {
        var before = CultureInfo.CurrentCulture;
        try
        {
            CultureInfo.CurrentCulture = CultureInfo.GetCultureInfo(culture);
            return draw();
        }
        finally
        {
            CultureInfo.CurrentCulture = before;
        }
    }

    private static double Contrast(double one, double other) => (Math.Max(one, other) + 0.05) / (Math.Min(one, other) + 0.05);

    private static double Luminance(string colour)
    {
        double Part(int at)
        {
            var value = int.Parse(colour.AsSpan(at, 2), NumberStyles.HexNumber, CultureInfo.InvariantCulture) / 255.0;
            return value <= 0.04045 ? value / 12.92 : Math.Pow((value + 0.055) / 1.055, 2.4);
        }

        return (0.2126 * Part(1)) + (0.7152 * Part(3)) + (0.0722 * Part(5));
    }
}
