using Bunit;
using ParticleLims.Analysis.Conformity;
using ParticleLims.Laboratory.Runs;
using ParticleLims.Laboratory.Specifications;
using ParticleLims.Web.Controls;
using Shouldly;
using Xunit;

namespace ParticleLims.Web.Tests.Controls;

/// <summary>What a judged limit looks like: a word and a shape for everything that needs eyes.</summary>
public sealed class LimitsTableTests : BunitContext
{
    private static readonly Limit D50 = new() { Characteristic = LimitCharacteristic.Percentile, Percent = 50m, Lower = 38m, Upper = 48m, LowerAlert = 41m, UpperAlert = 44.8m, GreatestSpread = 1.5m, Digits = 1 };

    [Fact]
    public void A_value_beyond_its_alert_limit_conforms_and_says_so()
    {
        var table = Render<LimitsTable>(with => with.Add(one => one.Limits, [new JudgedLimit(D50, Of(45.4, Verdict.Conforms))]));
        table.Find("[data-test=beyond-alert]").TextContent.ShouldBe("above the alert limit of 44.8 µm");
        table.Markup.ShouldContain("alert below 41.0 or above 44.8 µm");
    }

    [Theory]
    [InlineData(44.8, Verdict.Conforms)]
    [InlineData(41.0, Verdict.Conforms)]
    [InlineData(49.0, Verdict.DoesNotConform)]
    [InlineData(45.4, Verdict.Undecided)]
    public void A_value_on_the_alert_limit_and_one_that_does_not_conform_are_no_alert(double value, Verdict verdict) =>
        Render<LimitsTable>(with => with.Add(one => one.Limits, [new JudgedLimit(D50, Of(value, verdict))])).FindAll("[data-test=beyond-alert]").ShouldBeEmpty();

    [Fact]
    public void Each_determination_behind_a_mean_is_shown()
    {
        var judged = new JudgedLimit(D50, Of(45, Verdict.Undecided)) { IsApart = true, Determinations = [new Determination("R-26-00001", "42.0", false), new Determination("R-26-00002", "48.1", true)] };
        var table = Render<DeterminationsTable>(with => with.Add(one => one.Limits, [judged]));
        table.FindAll("tbody td").Select(cell => cell.TextContent).ShouldBe(["42.0", "48.1, out", "1.5 µm"]);
        Render<LimitsTable>(with => with.Add(one => one.Limits, [judged])).Find("[data-test=apart]").TextContent.ShouldBe("determinations too far apart");
    }

    private static LimitVerdict Of(double value, Verdict verdict) => new() { Limit = 0, Value = value, Rounded = value.ToString("F1", System.Globalization.CultureInfo.InvariantCulture), Verdict = verdict, VerdictAsRounded = verdict };
}
