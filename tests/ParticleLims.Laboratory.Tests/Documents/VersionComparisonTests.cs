using ParticleLims.Analysis.Quantities;
using ParticleLims.Laboratory.Documents;
using ParticleLims.Laboratory.Methods;
using ParticleLims.Laboratory.Specifications;

namespace ParticleLims.Laboratory.Tests.Documents;

public sealed class VersionComparisonTests
{
    private static readonly CancellationToken None = CancellationToken.None;

    [Fact]
    public void What_became_different_new_or_left_out_is_said_in_sentences()
    {
        var changes = VersionComparison.Between([new("Sieving time", "180 s"), new("Replicates", "1"), new("Sieve 20 µm", "used")], [new("Sieving time", "240 s"), new("Replicates", "1"), new("Sieve 90 µm", "used")]);
        changes.Select(change => change.Words).ShouldBe(["Sieving time: 180 s became 240 s.", "Sieve 90 µm: new, used.", "Sieve 20 µm: taken out; it was used."]);
    }

    [Fact]
    public void The_same_facts_have_no_change() => VersionComparison.Between([new("Replicates", "1")], [new("Replicates", "1")]).ShouldBeEmpty();

    [Fact]
    public async Task Two_versions_of_a_method_are_compared_member_by_member()
    {
        await using var laboratory = await OpenedSmallLaboratory.OpenAsync(DatabaseKind.Sqlite);
        var author = laboratory.Small.People.LaboratoryManager.Actor;
        var keeping = laboratory.Get<MethodKeeping>();
        var method = (await keeping.AllAsync(author, None)).Single(page => page.Product.Code == "GC-45").Method;
        await keeping.ReviseAsync(author, method.Id, Calcite() with { Seconds = 240, Replicates = 2, WhatChanged = "Longer and twice" }, null, None);
        var versions = (await keeping.AllAsync(author, None)).Single(page => page.Method.Id == method.Id).Versions;
        var changes = VersionComparison.Between(MethodFacts.Of(versions[1]), MethodFacts.Of(versions[0])).Select(change => change.Name).ToList();
        changes.ShouldContain("Sieving time");
        changes.ShouldContain("Replicates");
        changes.ShouldContain("Sieve 63 µm");
        changes.ShouldNotContain("Procedure");
    }

    [Fact]
    public async Task Two_versions_of_a_specification_are_compared_limit_by_limit()
    {
        await using var laboratory = await OpenedSmallLaboratory.OpenAsync(DatabaseKind.Sqlite);
        var author = laboratory.Small.People.LaboratoryManager.Actor;
        var keeping = laboratory.Get<SpecificationKeeping>();
        var before = (await keeping.AllAsync(author, None)).Single(page => page.Product.Code == "GC-45");
        var draft = new SpecificationDraft([new LimitDraft(LimitCharacteristic.Passing, 98m, null, 1, Aperture.FromMicrometres(45m)), new LimitDraft(LimitCharacteristic.Span, null, 2.5m, 2)], "Tighter");
        await keeping.ReviseAsync(author, before.Specification.Id, draft, null, None);
        var versions = (await keeping.AllAsync(author, None)).Single(page => page.Specification.Id == before.Specification.Id).Versions;
        VersionComparison.Between(SpecificationFacts.Of(versions[1]), SpecificationFacts.Of(versions[0])).Select(change => change.Words).ShouldBe(
        [
            "Passing 45 µm: at least 97.0 %; 1 decimal; printed became at least 98.0 %; 1 decimal; printed.",
            "Span: new, at most 2.50; 2 decimals; printed.",
            "D50: taken out; it was 20.0 to 30.0 µm; 1 decimal; printed.",
        ]);
    }

    private static MethodDraft Calcite() => new()
    {
        Procedure = SievingProcedure.CarriedResidue, Apertures = [Aperture.FromMicrometres(20m), Aperture.FromMicrometres(45m)],
        PortionLeast = Mass.FromGrams(9.5m), PortionMost = Mass.FromGrams(10.5m), Seconds = 180,
    };
}
