using ParticleLims.Laboratory.Record;
using ParticleLims.Laboratory.Templates;

namespace ParticleLims.Laboratory.Tests.Templates;

/// <summary>What a template may say of the paper, and what it is refused.</summary>
public sealed class PaperPlanTests
{
    public static TheoryData<PaperBlock> EveryBlock => [.. Enum.GetValues<PaperBlock>()];

    public static TheoryData<PaperField> EveryField => [.. Enum.GetValues<PaperField>()];

    private static PaperTexts English => new("en");

    [Fact]
    public void The_usual_plan_is_taken_and_leaves_nothing_out()
    {
        PaperPlan.Usual.Check();
        (PaperPlan.Usual.Kind, PaperPlan.Usual.Omitted.Count, PaperPlan.Usual.Net, PaperPlan.Usual.Uncertainty, PaperPlan.Usual.Logo).ShouldBe((PaperKind.Analysis, 0, false, false, null));
    }

    [Theory]
    [MemberData(nameof(EveryBlock))]
    public void Every_block_stands_on_every_certificate_once_and_is_named_where_it_does_not(PaperBlock block)
    {
        List<PaperBlock> without = [.. PaperBlockWords.Usual.Where(one => one != block)];
        Refused(PaperPlan.Usual with { Blocks = without }).Message.ShouldContain(block.Words());
        Refused(PaperPlan.Usual with { Blocks = [.. PaperBlockWords.Usual, block] }).Message.ShouldContain(block.Words());
        (PaperPlan.Usual with { Blocks = [block, .. without] }).Check();
    }

    [Theory]
    [MemberData(nameof(EveryField))]
    public void A_field_is_left_out_only_where_no_rule_asks_for_it(PaperField field)
    {
        var plan = PaperPlan.Usual with { Omitted = [field] };
        if (PaperFields.Optional.Contains(field))
        {
            plan.Check();
            field.WhyNeeded().ShouldBeNull();
        }
        else
        {
            var refusal = Refused(plan);
            refusal.Member.ShouldBe("omitted");
            refusal.Message.ShouldContain(field.Words());
            refusal.Message.ShouldContain(field.WhyNeeded()!);
        }
    }

    [Fact]
    public void What_there_is_not_is_refused()
    {
        Refused(PaperPlan.Usual with { Omitted = [(PaperField)999] });
        Refused(PaperPlan.Usual with { Blocks = [.. PaperBlockWords.Usual, (PaperBlock)999] });
        Refused(PaperPlan.Usual with { Kind = (PaperKind)999 });
        Refused(PaperPlan.Usual with { Texts = [new PaperTexts("xx")] });
        Refused(PaperPlan.Usual with { Texts = [English, English] });
    }

    [Fact]
    public void A_text_is_short_and_stands_in_English_too_which_is_printed_where_a_language_has_none()
    {
        Refused(PaperPlan.Usual with { Texts = [English with { Storage = new string('x', PaperTexts.Longest + 1) }] }).Message.ShouldContain("600");
        Refused(PaperPlan.Usual with { Texts = [English with { Safety = new string('x', PaperTexts.LongestSafety + 1) }] }).Message.ShouldContain("200");
        Refused(PaperPlan.Usual with { Texts = [new PaperTexts("de") { Storage = "Trocken lagern" }] }).Message.ShouldContain("English");
        var plan = PaperPlan.Usual with { Texts = [English with { Storage = "Keep dry" }, new PaperTexts("de") { Storage = "Trocken lagern" }] };
        plan.Check();
        (plan.Text("de", one => one.Storage), plan.Text("fr", one => one.Storage), plan.Text("en", one => one.Storage), plan.Text("de", one => one.Note)).ShouldBe(("Trocken lagern", "Keep dry", "Keep dry", string.Empty));
    }

    [Fact]
    public void An_accreditation_names_its_methods_and_its_last_day_and_covers_nothing_else()
    {
        var scope = new AccreditedScope(["M-GC-45", "M-PS-63"], new DateOnly(2027, 6, 30));
        Refused(PaperPlan.Usual with { Texts = [English with { Accreditation = "No. 4711" }] }).Member.ShouldBe("scope");
        Refused(PaperPlan.Usual with { Texts = [English with { Accreditation = "No. 4711" }], Scope = scope with { Methods = [] } }).Member.ShouldBe("scope");
        Refused(PaperPlan.Usual with { Scope = scope }).Member.ShouldBe("scope");
        (PaperPlan.Usual with { Texts = [English with { Accreditation = "No. 4711" }], Scope = scope }).Check();
        scope.Covers(["M-GC-45"], new DateOnly(2027, 6, 30)).ShouldBeTrue();
        scope.Covers(["M-GC-45"], new DateOnly(2027, 7, 1)).ShouldBeFalse("the day after the last");
        scope.Covers(["M-GC-45", "M-MS-90"], new DateOnly(2027, 6, 30)).ShouldBeFalse("one of two methods is not in it");
    }

    [Fact]
    public void A_logo_says_what_it_shows()
    {
        var logo = new PaperLogo(new string('a', 64), 120, 40, "  ");
        Refused(PaperPlan.Usual with { Logo = logo }).Member.ShouldBe("alternative");
        (PaperPlan.Usual with { Logo = logo with { Alternative = "A mill wheel" } }).Check();
    }

    [Fact]
    public void A_plan_written_and_read_again_says_the_same()
    {
        var plan = (PaperPlan.Usual with
        {
            Kind = PaperKind.TestReport, Logo = new PaperLogo(new string('a', 64), 120, 40, " A mill wheel "), Blocks = [.. PaperBlockWords.Usual.Reverse()], Omitted = [PaperField.Curve, PaperField.Quantity, PaperField.Curve], Net = true,
            Texts = [new PaperTexts("de") { Storage = " Trocken " }, English with { Storage = "Dry", Accreditation = "No. 4711" }, new PaperTexts("fr")], Scope = new AccreditedScope([" M-PS-63", "M-GC-45", "M-GC-45"], new DateOnly(2027, 6, 30)),
        }).Tidied();
        plan.Check();
        var written = plan.Write();
        PaperPlan.Read(written).Write().ShouldBe(written);
        (plan.Logo!.Alternative, string.Join(' ', plan.Omitted), string.Join(' ', plan.Texts.Select(one => one.Language)), string.Join(' ', plan.Scope!.Methods)).ShouldBe(("A mill wheel", "Quantity Curve", "en de", "M-GC-45 M-PS-63"));
        written.ShouldContain("\"kind\":\"testReport\"");
    }

    private static RefusedException Refused(PaperPlan plan)
    {
        var refusal = Should.Throw<RefusedException>(plan.Check);
        refusal.Code.ShouldBe("certificate-template");
        return refusal;
    }
}
