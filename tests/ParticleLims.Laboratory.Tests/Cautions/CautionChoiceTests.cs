using ParticleLims.Laboratory.Cautions;
using ParticleLims.Laboratory.Methods;
using ParticleLims.Laboratory.Products;

namespace ParticleLims.Laboratory.Tests.Cautions;

public sealed class CautionChoiceTests
{
    public static TheoryData<Hazards, string> StopsAtTheStart { get; } = new()
    {
        { Hazards.CombustibleDust, "C-21" }, { Hazards.CombustibleDust, "C-23" }, { Hazards.LowIgnitionEnergy, "C-25" }, { Hazards.ReactiveMetal, "C-30" }, { Hazards.Oxidiser, "C-33" }, { Hazards.Toxic, "C-23" },
    };

    public static TheoryData<Hazards, string> ToldAtTheStart { get; } = new()
    {
        { Hazards.Sensitiser, "C-15" }, { Hazards.Irritant, "C-17" }, { Hazards.CrystallineSilica, "C-13" }, { Hazards.Toxic, "C-14" }, { Hazards.CombustibleDust, "C-20" },
    };

    [Theory]
    [MemberData(nameof(StopsAtTheStart))]
    public void A_dangerous_powder_is_stopped_at_before_the_start(Hazards hazards, string code) =>
        Start(hazards).Single(caution => caution.Code == code).Stop.ShouldBeTrue();

    [Theory]
    [MemberData(nameof(ToldAtTheStart))]
    public void Each_hazard_is_told_before_the_start(Hazards hazards, string code)
    {
        Start(hazards).ShouldContain(caution => caution.Code == code);
        Start(Hazards.None).ShouldNotContain(caution => caution.Code == code);
    }

    [Fact]
    public void Unknown_hazards_leave_one_caution_which_is_not_to_open_the_sample()
    {
        foreach (var moment in Enum.GetValues<CautionMoment>())
        {
            var only = CautionChoice.For(moment, null, SievingProcedure.CarriedResidue).ShouldHaveSingleItem();
            only.Code.ShouldBe("C-02");
            only.Stop.ShouldBeTrue();
        }
    }

    [Fact]
    public void Smoke_or_a_shock_is_a_reason_to_stop_whatever_the_powder()
    {
        Start(Hazards.None).ShouldContain(caution => caution.Code == "C-04" && caution.Stop);
        CautionChoice.For(CautionMoment.Sieving, Hazards.None, SievingProcedure.NestedStack).ShouldContain(caution => caution.Code == "C-04");
    }

    [Fact]
    public void Air_jet_and_stack_have_cautions_of_their_own()
    {
        var jet = Codes(SievingProcedure.CarriedResidue);
        var stack = Codes(SievingProcedure.NestedStack);
        jet.ShouldContain("C-60");
        jet.ShouldNotContain("C-53");
        stack.ShouldContain("C-53");
        stack.ShouldNotContain("C-60");
        Codes(SievingProcedure.SeparatePortions).ShouldBe(jet);
    }

    [Fact]
    public void Those_to_stop_at_come_first_and_none_comes_twice()
    {
        foreach (var moment in Enum.GetValues<CautionMoment>())
        {
            var chosen = CautionChoice.For(moment, (Hazards)255, SievingProcedure.NestedStack);
            chosen.Select(caution => caution.Code).ShouldBeUnique();
            chosen.Select(caution => caution.Stop).ShouldBe(chosen.Select(caution => caution.Stop).OrderByDescending(stop => stop));
        }
    }

    [Fact]
    public void Every_hazard_has_a_word()
    {
        foreach (var hazard in Enum.GetValues<Hazards>().Where(hazard => hazard != Hazards.None))
        {
            ((Hazards?)hazard).Words().ShouldNotBeEmpty();
        }

        ((Hazards?)null).Words().ShouldBe("not recorded");
        ((Hazards?)(Hazards.CombustibleDust | Hazards.Sensitiser)).Words().ShouldBe("combustible dust, sensitiser");
    }

    private static IReadOnlyList<Caution> Start(Hazards hazards) => CautionChoice.For(CautionMoment.Start, hazards, SievingProcedure.CarriedResidue);

    private static List<string> Codes(SievingProcedure procedure) => [.. CautionChoice.For(CautionMoment.Sieving, Hazards.CombustibleDust, procedure).Select(caution => caution.Code)];
}
