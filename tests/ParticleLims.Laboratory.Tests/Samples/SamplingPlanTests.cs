using Microsoft.EntityFrameworkCore;
using ParticleLims.Analysis.Quantities;
using ParticleLims.Laboratory.Certificates;
using ParticleLims.Laboratory.Customers;
using ParticleLims.Laboratory.Record;
using ParticleLims.Laboratory.Samples;
using ParticleLims.Laboratory.Specifications;

namespace ParticleLims.Laboratory.Tests.Samples;

/// <summary>The starch is sampled in 5 increments of together at least 200 g; what does not come so stands in the way until the quality manager accepts it.</summary>
public sealed class SamplingPlanTests
{
    [Theory]
    [EachDatabase]
    public async Task A_sample_is_compared_with_the_plan_when_it_is_booked_in(DatabaseKind kind)
    {
        await using var laboratory = await OpenedSmallLaboratory.OpenAsync(kind);
        var small = laboratory.Small;
        (await LacksAsync(laboratory, good => good)).ShouldBeNull();
        (await LacksAsync(laboratory, good => good.Arriving(one => one with { Increments = 4 }))).ShouldBe("4 of 5 increments were taken");
        (await LacksAsync(laboratory, good => good.Arriving(one => one with { Increments = null, Mass = null }))).ShouldBe("how many increments were taken is not known, 5 are asked for; the sample was not weighed, at least 200 g are asked for");
        (await LacksAsync(laboratory, good => good.Arriving(one => one with { Mass = Mass.FromGrams(199.999m) }))).ShouldBe("the sample has 199.999 g, at least 200 g are asked for");
        var recorded = await small.WithSpecificationAsync(small.Starch, draft => draft with { Sampling = draft.Sampling! with { ToRecord = "the seal's number" } });
        (await LacksAsync(laboratory, good => good.Arriving(one => one with { Recorded = " " }) with { SpecificationVersionId = recorded.SpecificationVersionId })).ShouldBe("not written down on arrival: the seal's number");
        (await LacksAsync(laboratory, good => good.Arriving(one => one with { Recorded = "Seal 4471" }) with { SpecificationVersionId = recorded.SpecificationVersionId })).ShouldBeNull();
    }

    [Theory]
    [EachDatabase]
    public async Task A_plan_that_was_not_carried_out_blocks_the_release_by_name_until_it_is_accepted_by_signature(DatabaseKind kind)
    {
        await using var laboratory = await OpenedSmallLaboratory.OpenAsync(kind);
        var (small, manager) = (laboratory.Small, laboratory.Small.People.QualityManager);
        var lot = await ShortAsync(small);
        await lot.SubmitAsync(Powder.Starch);
        await lot.AcceptAsync();
        var refusal = await laboratory.ShouldRefuseAsync("blocked", () => small.Desk.ReleaseAsync(lot.Id));
        refusal.Message.ShouldContain($"Sample {lot.Sample.Code}: the sampling plan was not carried out (3 of 5 increments were taken).");

        await small.Get<SamplingAccepting>().AcceptAsync(manager.Actor, lot.Sample.Id, "The silo was nearly empty: three increments cross all of it", await small.ProofAsync(manager), default);
        await laboratory.ShouldRefuseAsync("sampling-accepted", async () => await small.Get<SamplingAccepting>().AcceptAsync(manager.Actor, lot.Sample.Id, "And once more", await small.ProofAsync(manager), default));
        await small.Desk.ReleaseAsync(lot.Id);
        var certificate = await small.Desk.IssueAsync(lot.Id, lot.Sample.Id);
        (await ContentAsync(laboratory, certificate)).ShouldContain("3 of 5 increments were taken. Reason: The silo was nearly empty");
        await WriteInGermanAsync(small);
        var revised = await small.Get<CertificateIssue>().ReviseAsync(manager.Actor, certificate, "The language", "They read German", 1, null, default);
        (await ContentAsync(laboratory, revised)).ShouldContain("3 von 5 Einzelproben wurden gezogen. Grund: The silo was nearly empty");
        var signature = (await small.Get<SignatureReading>().OfAsync(manager.Actor, lot.Sample.Id, default)).ShouldHaveSingleItem();
        (signature.Meaning, signature.Unchanged).ShouldBe((SamplingAcceptance.Meaning, true));
    }

    [Theory]
    [EachDatabase]
    public async Task Nobody_accepts_what_lacks_nothing_what_they_booked_in_themselves_or_what_is_decided(DatabaseKind kind)
    {
        await using var laboratory = await OpenedSmallLaboratory.OpenAsync(kind);
        var (small, manager) = (laboratory.Small, laboratory.Small.People.QualityManager);
        var accepting = small.Get<SamplingAccepting>();
        var whole = await small.BookInAsync(small.Starch);
        await laboratory.ShouldRefuseAsync("sampling-carried-out", async () => await accepting.AcceptAsync(manager.Actor, whole.Sample.Id, "It is in order", await small.ProofAsync(manager), default));
        var decided = await ShortAsync(small);
        await small.Desk.RejectAsync(decided.Id, "Wet when it came");
        await laboratory.ShouldRefuseAsync("lot-decided", async () => await accepting.AcceptAsync(manager.Actor, decided.Sample.Id, "Too late by now", await small.ProofAsync(manager), default));
        var own = await ShortAsync(small);
        await small.GiveRolesAsync(small.People.Technician, ParticleLims.Laboratory.People.Role.Technician, ParticleLims.Laboratory.People.Role.QualityManager);
        (await laboratory.ShouldRefuseAsync("own-work", async () => await accepting.AcceptAsync(small.People.Technician.Actor, own.Sample.Id, "I took it myself", await small.ProofAsync(small.People.Technician), default))).Message.ShouldContain("booked sample");
    }

    [Theory]
    [EachDatabase]
    public async Task Numbers_that_no_sample_has_are_refused(DatabaseKind kind)
    {
        await using var laboratory = await OpenedSmallLaboratory.OpenAsync(kind);
        var (small, reception) = (laboratory.Small, laboratory.Get<SampleReception>());
        var good = small.NewSample(await small.BookInLotAsync(small.Starch), small.Starch);
        Task BookInAsync(NewSample wrong) => reception.BookInAsync(small.People.Technician.Actor, wrong, null, default);
        await laboratory.ShouldRefuseAsync("sample-increments", () => BookInAsync(good.Arriving(one => one with { Increments = 0 })));
        await laboratory.ShouldRefuseAsync("sample-mass", () => BookInAsync(good.Arriving(one => one with { Mass = Mass.Zero })));
        await laboratory.ShouldRefuseAsync("sample-recorded", () => BookInAsync(good.Arriving(one => one with { Recorded = new string('x', SampleParticulars.LongestRecorded + 1) })));
    }

    private static async Task<string?> LacksAsync(OpenedSmallLaboratory laboratory, Func<NewSample, NewSample> change)
    {
        var (small, technician) = (laboratory.Small, laboratory.Small.People.Technician.Actor);
        var inForce = (await small.Get<SpecificationKeeping>().InForceAsync(technician, small.Starch.ProductId, default)).Single();
        var good = small.NewSample(await small.BookInLotAsync(small.Starch), small.Starch) with { SpecificationVersionId = inForce.VersionId };
        var booked = await small.Get<SampleReception>().BookInAsync(technician, change(good), null, default);
        return (await small.Get<SampleReception>().FindAsync(technician, booked.Id, default))!.SamplingLacks;
    }

    private static async Task<string> ContentAsync(OpenedSmallLaboratory laboratory, Guid certificate)
    {
        await using var data = laboratory.Data();
        return (await data.Certificates.SingleAsync(one => one.Id == certificate)).Content;
    }

    private static async Task WriteInGermanAsync(SmallLaboratory small)
    {
        var (keeping, manager) = (small.Get<CustomerKeeping>(), small.People.LaboratoryManager.Actor);
        var customer = (await keeping.AllAsync(manager, default)).Single(one => one.Id == small.Customer);
        await keeping.ChangeAsync(manager, customer.Id, new CustomerCard(customer.Name, customer.Address, customer.Contact) { Certificates = customer.Certificates with { Language = "de" } }, "They wrote so", customer.Version, default);
    }

    private static async Task<TestLot> ShortAsync(SmallLaboratory small)
    {
        var lot = await small.BookInLotAsync(small.Starch);
        var booked = await small.Get<SampleReception>().BookInAsync(small.People.Technician.Actor, small.NewSample(lot, small.Starch).Arriving(sample => sample with { Increments = 3 }), null, default);
        return new TestLot(small, small.Starch, lot, booked);
    }
}
