using ParticleLims.Analysis.Quantities;
using ParticleLims.Laboratory.Specifications;

namespace ParticleLims.Laboratory.Tests.Specifications;

public sealed class SpecificationRefusalTests
{
    private static readonly Aperture At45 = Aperture.FromMicrometres(45m);

    [Theory]
    [EachDatabase]
    public async Task A_limit_that_says_nothing_or_contradicts_itself_is_refused(DatabaseKind kind)
    {
        await using var laboratory = await OpenedSmallLaboratory.OpenAsync(kind);
        foreach (var limit in Impossible())
        {
            var refusal = await laboratory.ShouldRefuseAsync("limit", () => WriteAsync(laboratory.Small, [new LimitDraft(LimitCharacteristic.Passing, 97m, null, 1, At45), limit]));
            refusal.Member.ShouldBe("limits[1]", refusal.Message);
        }

        await laboratory.ShouldRefuseAsync("specification", () => WriteAsync(laboratory.Small, []));
        await laboratory.ShouldRefuseAsync("specification", () => WriteAsync(laboratory.Small, [.. Enumerable.Repeat(new LimitDraft(LimitCharacteristic.Span, null, 2m, 2), 61)]));
        await WriteAsync(laboratory.Small, [new LimitDraft(LimitCharacteristic.Passing, 100m, 100m, 1, At45)]);
    }

    [Theory]
    [EachDatabase]
    public async Task A_specification_is_for_a_customer_that_there_is(DatabaseKind kind)
    {
        await using var laboratory = await OpenedSmallLaboratory.OpenAsync(kind);
        var small = laboratory.Small;
        await laboratory.ShouldRefuseAsync("not-found", () => small.Get<SpecificationKeeping>().WriteAsync(
            small.People.LaboratoryManager.Actor, "SP-NEW", "For nobody", small.Calcite.ProductId, Guid.CreateVersion7(), small.Calcite.Limits, null, default));
    }

    [Theory]
    [EachDatabase]
    public async Task A_sampling_plan_that_nobody_could_follow_is_refused_and_so_are_no_determinations(DatabaseKind kind)
    {
        await using var laboratory = await OpenedSmallLaboratory.OpenAsync(kind);
        var plan = new SamplingPlan { Increments = 5, Procedure = "Scoop over the run-off" };
        foreach (var (bad, member) in ((SamplingPlan, string)[])
        [
            (plan with { Increments = 0 }, "samplingIncrements"), (plan with { Procedure = " so " }, "samplingProcedure"), (plan with { LeastMass = Mass.Zero }, "samplingLeastMass"), (plan with { ToRecord = new string('x', 401) }, "samplingToRecord"),
        ])
        {
            (await laboratory.ShouldRefuseAsync("sampling-plan", () => WriteAsync(laboratory.Small, Draft with { Sampling = bad }))).Member.ShouldBe(member);
        }

        foreach (var bad in (SpecificationDraft[])[Draft with { Determinations = 0 }, Draft with { Determinations = 11 }, Draft with { Combination = (Combination)9 }])
        {
            (await laboratory.ShouldRefuseAsync("specification", () => WriteAsync(laboratory.Small, bad))).Member.ShouldBe("determinations");
        }

        await WriteAsync(laboratory.Small, Draft with { Sampling = plan, Determinations = 10 });
    }

    private static SpecificationDraft Draft { get; } = new([new LimitDraft(LimitCharacteristic.Passing, 97m, null, 1, At45) { LowerAlert = 97.5m, UpperAlert = 99.9m }]);

    private static Task<Guid> WriteAsync(SmallLaboratory small, SpecificationDraft draft) =>
        small.Get<SpecificationKeeping>().WriteAsync(small.People.LaboratoryManager.Actor, "SP-NEW", "New", small.Calcite.ProductId, null, draft, null, default);

    private static IEnumerable<LimitDraft> Impossible() =>
    [
        new(LimitCharacteristic.Passing, null, null, 1, At45),
        new(LimitCharacteristic.Passing, 97m, null, 1),
        new(LimitCharacteristic.Passing, 98m, 97m, 1, At45),
        new(LimitCharacteristic.Passing, -1m, null, 1, At45),
        new(LimitCharacteristic.Retained, null, 100.1m, 1, At45),
        new(LimitCharacteristic.Passing, 97m, null, 7, At45),
        new(LimitCharacteristic.Passing, 97m, null, -1, At45),
        new(LimitCharacteristic.Percentile, 20m, 30m, 1),
        new(LimitCharacteristic.Percentile, 20m, 30m, 1, Percent: 0m),
        new(LimitCharacteristic.Percentile, 20m, 30m, 1, Percent: 100m),
        new(LimitCharacteristic.Percentile, 20m, 30m, 1, At45, 50m),
        new(LimitCharacteristic.Percentile, -20m, null, 1, Percent: 50m),
        new(LimitCharacteristic.Span, null, 0m, 2),
        new(LimitCharacteristic.Span, null, 2m, 2, At45),
        new(LimitCharacteristic.Span, null, 2m, 2, Rule: LimitRule.Guarded, GuardFactor: -1m),
        new(LimitCharacteristic.Span, null, 2m, 2, Rule: LimitRule.FourState, GuardFactor: 11m),
        new(LimitCharacteristic.Span, null, 2m, 2, Rule: (LimitRule)9),
        new(LimitCharacteristic.Passing, 97m, null, 1, At45) { LowerAlert = 97m },
        new(LimitCharacteristic.Passing, 97m, null, 1, At45) { LowerAlert = 96m },
        new(LimitCharacteristic.Passing, 97m, null, 1, At45) { UpperAlert = 100m },
        new(LimitCharacteristic.Percentile, 20m, 30m, 1, Percent: 50m) { UpperAlert = 30m },
        new(LimitCharacteristic.Percentile, 20m, 30m, 1, Percent: 50m) { LowerAlert = 27m, UpperAlert = 27m },
        new(LimitCharacteristic.Percentile, 20m, 30m, 1, Percent: 50m) { GreatestSpread = 0m },
        new(LimitCharacteristic.Passing, 97m, null, 1, At45) { GreatestSpread = 101m },
    ];

    private static Task<Guid> WriteAsync(SmallLaboratory small, IReadOnlyList<LimitDraft> limits) => WriteAsync(small, new SpecificationDraft(limits));
}
