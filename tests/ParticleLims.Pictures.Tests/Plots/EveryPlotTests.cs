using System.Globalization;
using System.Xml.Linq;
using CsCheck;
using ParticleLims.Analysis.ModelFits;
using ParticleLims.Pictures.Drawing;
using ParticleLims.Pictures.Plots;
using ParticleLims.Pictures.Svg;
using Shouldly;
using Xunit;

namespace ParticleLims.Pictures.Tests.Plots;

/// <summary>What holds for each picture, whatever it shows.</summary>
public sealed class EveryPlotTests
{
    private static readonly PlotLayout[] _layouts = [PlotLayout.Page, PlotLayout.Narrow, new(515, 300, 7.5)];

    [Fact]
    public void The_same_picture_gives_the_same_bytes_in_every_culture()
    {
        foreach (var plot in Examples.All)
        {
            var texts = new[] { string.Empty, "tr-TR", "de-DE", "fa-IR" }.Select(culture => InCulture(culture, () => SvgPicture.ForFile(plot, PlotLayout.Page) + plot.Numbers.ToCsv())).Distinct().ToList();
            texts.Count.ShouldBe(1, plot.Title);
        }
    }

    [Fact]
    public void Every_picture_has_a_name_a_description_and_numbers()
    {
        foreach (var plot in Examples.All)
        {
            var root = XElement.Parse(SvgPicture.ForPage(plot, PlotLayout.Narrow, "one"));
            root.Elements().Single(element => element.Name.LocalName == "title").Value.ShouldBe(plot.Title);
            root.Elements().Single(element => element.Name.LocalName == "desc").Value.Length.ShouldBeGreaterThan(80);
            plot.Numbers.Rows.Count.ShouldBeGreaterThan(3);
            plot.Numbers.Rows.ShouldAllBe(row => row.Count == plot.Numbers.Columns.Count);
        }
    }

    [Fact]
    public void No_text_covers_another_or_leaves_the_drawing()
    {
        foreach (var (plot, layout) in Examples.All.SelectMany(plot => _layouts, (plot, layout) => (plot, layout)))
        {
            var texts = Draw(plot, layout).Texts.Select(text => (text.Text, Box: TextExtent.Box(text.At, text.Text, text.Style))).ToList();
            texts.ShouldAllBe(text => text.Box.Left >= 0 && text.Box.Right <= layout.Width && text.Box.Top >= 0 && text.Box.Bottom <= layout.Height, $"{plot.Title} at {layout.Width}");
            for (var i = 0; i < texts.Count; i++)
            {
                foreach (var (other, box) in texts.Skip(i + 1))
                {
                    texts[i].Box.Overlaps(box).ShouldBeFalse($"{plot.Title} at {layout.Width}: '{texts[i].Text}' and '{other}'");
                }
            }
        }
    }

    [Fact]
    public void Text_is_at_least_12_pixels_high_on_a_phone() =>
        Examples.All.SelectMany(plot => Draw(plot, PlotLayout.Narrow).Texts).ShouldAllBe(text => text.Style.Size >= 12);

    [Fact]
    public void Lines_in_different_inks_differ_in_stroke_or_width_too()
    {
        foreach (var plot in Examples.All)
        {
            var drawn = Draw(plot, PlotLayout.Page);
            var inks = drawn.Polylines.Select(line => (line.Pen.Ink, line.Pen.Dash, Width: Math.Round(line.Pen.Width, 3))).Distinct().ToList();
            inks.GroupBy(one => (one.Dash, one.Width)).ShouldAllBe(group => group.Count() == 1, plot.Title);
        }
    }

    [Fact]
    public void Hostile_numbers_are_drawn_as_numbers_or_refused()
    {
        var size = Gen.OneOf(Gen.Double[0.001, 5_000], Gen.OneOf([.. new[] { 1e-100, 1e-9, 63, 1e12, 1e100 }.Select(Gen.Const)]));
        var value = Gen.OneOf(Gen.Double[-10, 110], Gen.OneOf([.. new[] { 0, 50, 100, 1e-300, 1e-12, -1e99, 1e99, 99.999999999999 }.Select(Gen.Const)]));
        Gen.Select(size, value).Array[0, 6].Sample(pairs =>
        {
            foreach (var plot in Hostile(pairs))
            {
                foreach (var layout in _layouts)
                {
                    var svg = SvgPicture.ForPage(plot, layout, "hostile");
                    svg.ShouldNotContain("NaN", Case.Sensitive, plot.Title);
                    svg.ShouldNotContain("∞", Case.Sensitive, plot.Title);
                    svg.ShouldNotContain("Infinity", Case.Sensitive, plot.Title);
                    svg.Length.ShouldBeLessThan(200_000, plot.Title);
                }
            }
        }, iter: 300);
    }

    [Theory]
    [InlineData(double.NaN)]
    [InlineData(double.PositiveInfinity)]
    [InlineData(1e200)]
    public void What_is_no_number_is_refused(double value)
    {
        Should.Throw<ArgumentOutOfRangeException>(() => new HistogramPlot(new Histogram { Title = "No", Classes = [new(1, 2, value)] }));
        Should.Throw<ArgumentOutOfRangeException>(() => new ResidualsPlot(new Residuals { Title = "No", Fits = [new("one", [new(1, value)])] }));
        Should.Throw<ArgumentOutOfRangeException>(() => new BudgetBarsPlot(new Budget { Title = "No", Entries = [new("one", value)] }));
        Should.Throw<ArgumentOutOfRangeException>(() => NetPlot.LogNormal(new Net { Title = "No", Points = [new(1, value)] }));
        Should.Throw<ArgumentOutOfRangeException>(() => new DistributionCurvePlot(Examples.Of(new CurvePoint(value, 50))));
    }

    private static IEnumerable<IPlot> Hostile((double Size, double Value)[] pairs)
    {
        var points = pairs.Select(pair => new CurvePoint(pair.Size, pair.Value, Math.Abs(pair.Value), pair.Size)).ToList();
        yield return new DistributionCurvePlot(Examples.Of([.. points]) with { Model = new FittedLine(Model.LogNormal, 40, 1e6) });
        yield return NetPlot.RosinRammler(new Net { Title = "Rosin-Rammler", Points = points, Lines = [new("line", new FittedLine(Model.RosinRammler, 1e-50, 1e-3))] });
        yield return NetPlot.LogNormal(new Net { Title = "Log-normal", Points = points, Lines = [new("line", new FittedLine(Model.LogNormal, 1e50, 50))] });
        yield return new HistogramPlot(new Histogram { Title = "Histogram", Classes = [.. pairs.Select(pair => new HistogramClass(pair.Size, pair.Size * 1.5 <= 1e100 ? pair.Size * 1.5 : null, Math.Abs(pair.Value)))] });
        yield return new ResidualsPlot(new Residuals { Title = "Residuals", Fits = [new("one", [.. pairs.Select(pair => new ResidualPoint(pair.Size, pair.Value))])] });
        yield return new BudgetBarsPlot(new Budget { Title = "Budget", Entries = [.. pairs.Select(pair => new BudgetEntry("input", pair.Value))] });
        yield return new ControlChartPlot(new ControlChart { Title = "Chart", ValueName = "x", OrderName = "n", Points = [.. pairs.Select(pair => new ControlPoint("a", pair.Value))] });
    }

    private static RecordingSurface Draw(IPlot plot, PlotLayout layout)
    {
        var surface = new RecordingSurface();
        plot.Draw(surface, layout);
        return surface;
    }

    private static T InCulture<T>(string culture, Func<T> draw)
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
}
