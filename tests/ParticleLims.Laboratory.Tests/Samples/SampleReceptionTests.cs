using ParticleLims.Laboratory.Documents;
using ParticleLims.Laboratory.Methods;
using ParticleLims.Laboratory.Products;
using ParticleLims.Laboratory.Samples;
using ParticleLims.Laboratory.Specifications;

namespace ParticleLims.Laboratory.Tests.Samples;

public sealed class SampleReceptionTests
{
    [Theory]
    [EachDatabase]
    public async Task A_sample_is_booked_in_only_by_a_method_in_force(DatabaseKind kind)
    {
        await using var laboratory = await OpenedSmallLaboratory.OpenAsync(kind);
        var small = laboratory.Small;
        var (people, approval) = (small.People, small.Get<DocumentApproval<Method, MethodVersion>>());
        var draft = await small.Get<MethodKeeping>().ReviseAsync(people.LaboratoryManager.Actor, small.Calcite.MethodId, small.Calcite.Draft, null, default);
        await RefuseAsync(draft, "M-GC-45 version 2 is a draft");
        await approval.HandOverAsync(people.LaboratoryManager.Actor, draft, 1, default);
        await RefuseAsync(draft, "is in approval");
        await approval.HandBackAsync(people.QualityManager.Actor, draft, "Sieve longer", 2, default);
        await RefuseAsync(draft, "is a draft");
        await approval.HandOverAsync(people.LaboratoryManager.Actor, draft, 3, default);
        await approval.ApproveAsync(people.QualityManager.Actor, draft, null, await small.ProofAsync(people.QualityManager), 4, default);
        await RefuseAsync(small.Calcite.MethodVersionId, "M-GC-45 version 1 is superseded");
        await RefuseAsync(small.Starch.MethodVersionId, "it is for another product");
        var good = await small.BookInLotAsync(small.Calcite);
        await BookInAsync(laboratory, small.NewSample(good, small.Calcite) with { MethodVersionId = draft });

        async Task RefuseAsync(Guid version, string words)
        {
            var lot = await small.BookInLotAsync(small.Calcite);
            var refusal = await laboratory.ShouldRefuseAsync("method-not-approved", () => BookInAsync(laboratory, small.NewSample(lot, small.Calcite) with { MethodVersionId = version }));
            refusal.Message.ShouldContain(words);
        }
    }

    [Theory]
    [EachDatabase]
    public async Task A_sample_is_held_only_against_a_specification_in_force_for_its_customer(DatabaseKind kind)
    {
        await using var laboratory = await OpenedSmallLaboratory.OpenAsync(kind);
        var small = laboratory.Small;
        var (people, approval) = (small.People, small.Get<DocumentApproval<Specification, SpecificationVersion>>());
        var lot = await small.BookInLotAsync(small.Calcite);
        var own = await small.Get<SpecificationKeeping>().WriteAsync(people.LaboratoryManager.Actor, "SP-OTHER", "For another customer", small.Calcite.ProductId, small.OtherCustomer, small.Calcite.Limits, null, default);
        await RefuseAsync(own, "SP-OTHER version 1 is a draft");
        await approval.HandOverAsync(people.LaboratoryManager.Actor, own, 1, default);
        await RefuseAsync(own, "is in approval");
        await approval.ApproveAsync(people.QualityManager.Actor, own, null, await small.ProofAsync(people.QualityManager), 2, default);
        await RefuseAsync(own, "for another product or customer");
        await RefuseAsync(small.Starch.SpecificationVersionId, "for another product or customer");

        async Task RefuseAsync(Guid version, string words)
        {
            var refusal = await laboratory.ShouldRefuseAsync("specification-not-approved", () => BookInAsync(laboratory, small.NewSample(lot, small.Calcite) with { SpecificationVersionId = version }));
            refusal.Message.ShouldContain(words);
        }
    }

    [Theory]
    [EachDatabase]
    public async Task Where_a_customer_has_a_specification_of_its_own_the_general_one_is_refused(DatabaseKind kind)
    {
        await using var laboratory = await OpenedSmallLaboratory.OpenAsync(kind);
        var small = laboratory.Small;
        var (people, keeping, approval) = (small.People, small.Get<SpecificationKeeping>(), small.Get<DocumentApproval<Specification, SpecificationVersion>>());
        var (lot, stock) = (await small.BookInLotAsync(small.Calcite, small.OtherCustomer), await small.BookInLotAsync(small.Calcite));
        var own = await keeping.WriteAsync(people.LaboratoryManager.Actor, "SP-OTHER", "For another customer", small.Calcite.ProductId, small.OtherCustomer, small.Calcite.Limits, null, default);
        (await ChoicesAsync(small.OtherCustomer)).ShouldBe([small.Calcite.SpecificationVersionId], "a draft counts for nothing");
        await approval.HandOverAsync(people.LaboratoryManager.Actor, own, 1, default);
        await approval.ApproveAsync(people.QualityManager.Actor, own, null, await small.ProofAsync(people.QualityManager), 2, default);

        (await laboratory.ShouldRefuseAsync("specification-of-customer", () => BookInAsync(laboratory, small.NewSample(lot, small.Calcite)))).Message.ShouldContain("SP-OTHER");
        await BookInAsync(laboratory, small.NewSample(lot, small.Calcite) with { SpecificationVersionId = own });
        await BookInAsync(laboratory, small.NewSample(stock, small.Calcite));
        (await ChoicesAsync(small.OtherCustomer)).ShouldBe([own]);
        (await ChoicesAsync(small.Customer)).ShouldBe([small.Calcite.SpecificationVersionId]);
        (await ChoicesAsync(null)).ShouldBe([small.Calcite.SpecificationVersionId]);

        async Task<IEnumerable<Guid>> ChoicesAsync(Guid? customer) => (await keeping.InForceAsync(people.Technician.Actor, small.Calcite.ProductId, default)).For(customer).Select(one => one.VersionId);
    }

    [Theory]
    [EachDatabase]
    public async Task A_sample_says_where_it_comes_from_and_not_from_the_future(DatabaseKind kind)
    {
        await using var laboratory = await OpenedSmallLaboratory.OpenAsync(kind);
        var small = laboratory.Small;
        var good = small.NewSample(await small.BookInLotAsync(small.Calcite), small.Calcite);
        foreach (var bad in (NewSample[])[good.Arriving(one => one with { TakenBy = " " }), good.Arriving(one => one with { SamplingWay = "" }), good.Arriving(one => one with { Description = "\t" }), good.Arriving(one => one with { ConditionOnReceipt = "" })])
        {
            await laboratory.ShouldRefuseAsync("sample-incomplete", () => BookInAsync(laboratory, bad));
        }

        await laboratory.ShouldRefuseAsync("sample-from-the-future", () => BookInAsync(laboratory, good.Arriving(one => one with { TakenAt = laboratory.Running.Clock.GetUtcNow().AddSeconds(1) })));
        await BookInAsync(laboratory, good.Arriving(one => one with { TakenAt = null }));
    }

    [Theory]
    [EachDatabase]
    public async Task No_sample_is_opened_whose_hazards_nobody_recorded(DatabaseKind kind)
    {
        await using var laboratory = await OpenedSmallLaboratory.OpenAsync(kind);
        var small = laboratory.Small;
        var lot = await small.BookInLotAsync(small.Calcite);
        var planned = (await small.BookInSampleAsync(lot, small.Calcite)).RunIds[0];
        await small.Get<ProductKeeping>().ChangeAsync(small.People.LaboratoryManager.Actor, small.Calcite.ProductId, new ProductCard("GC-45", "Ground calcite", "Powder", null), "The data sheet was withdrawn", 1, default);
        var refusal = await laboratory.ShouldRefuseAsync("hazards-missing", () => small.BookInSampleAsync(lot, small.Calcite));
        refusal.Message.ShouldContain("Do not open, split or sieve");
        await laboratory.ShouldRefuseAsync("hazards-missing", () => small.Bench().StartAsync(planned, small.Calcite));
    }

    private static Task<SampleBookedIn> BookInAsync(OpenedSmallLaboratory laboratory, NewSample sample) =>
        laboratory.Get<SampleReception>().BookInAsync(laboratory.Small.People.Technician.Actor, sample, null, default);
}
