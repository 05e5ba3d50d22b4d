using ParticleLims.Analysis.Quantities;
using ParticleLims.Laboratory.Methods;

namespace ParticleLims.Laboratory.Tests.Methods;

public sealed class MethodRefusalTests
{
    [Theory]
    [EachDatabase]
    public async Task A_method_that_no_laboratory_could_follow_is_refused_in_words(DatabaseKind kind)
    {
        await using var laboratory = await OpenedSmallLaboratory.OpenAsync(kind);
        var small = laboratory.Small;
        foreach (var (draft, member) in Impossible(small.Calcite.Draft))
        {
            var written = await laboratory.ShouldRefuseAsync("method", () => WriteAsync(small, "M-NEW", draft));
            written.Member.ShouldBe(member, written.Message);
            (await laboratory.ShouldRefuseAsync("method", () => small.Get<MethodKeeping>().ReviseAsync(small.People.Reviewer.Actor, small.Calcite.MethodId, draft, null, default))).Message.ShouldBe(written.Message);
        }

        await WriteAsync(small, "M-NEW", small.Calcite.Draft);
    }

    [Theory]
    [EachDatabase]
    public async Task An_aperture_stands_once_in_a_method(DatabaseKind kind)
    {
        await using var laboratory = await OpenedSmallLaboratory.OpenAsync(kind);
        var draft = laboratory.Small.Calcite.Draft with { Apertures = [Aperture.FromMicrometres(45m), Aperture.FromMicrometres(63m), Aperture.FromMicrometres(45.000m)] };
        (await laboratory.ShouldRefuseAsync("method", () => WriteAsync(laboratory.Small, "M-NEW", draft))).Message.ShouldBe("The aperture 45 µm stands twice.");
    }

    [Theory]
    [EachDatabase]
    public async Task A_method_s_code_is_used_once_and_one_version_at_a_time_is_in_approval(DatabaseKind kind)
    {
        await using var laboratory = await OpenedSmallLaboratory.OpenAsync(kind);
        var small = laboratory.Small;
        await laboratory.ShouldRefuseAsync("method-code-used", () => WriteAsync(small, " M-GC-45 ", small.Calcite.Draft));
        await laboratory.ShouldRefuseAsync("method", () => WriteAsync(small, " ", small.Calcite.Draft));
        var draft = await small.Get<MethodKeeping>().ReviseAsync(small.People.Reviewer.Actor, small.Calcite.MethodId, small.Calcite.Draft, null, default);
        await small.Get<Laboratory.Documents.DocumentApproval<Method, MethodVersion>>().HandOverAsync(small.People.Reviewer.Actor, draft, 1, default);
        await laboratory.ShouldRefuseAsync("method-in-approval", () => small.Get<MethodKeeping>().ReviseAsync(small.People.Reviewer.Actor, small.Calcite.MethodId, small.Calcite.Draft, null, default));
    }

    private static IEnumerable<(MethodDraft Draft, string Member)> Impossible(MethodDraft good)
    {
        yield return (good with { Apertures = [] }, "apertures");
        yield return (good with { Apertures = [.. Enumerable.Range(1, 31).Select(one => Aperture.FromMicrometres(one * 10m))] }, "apertures");
        yield return (good with { PortionLeast = Mass.Zero }, "portionLeast");
        yield return (good with { PortionLeast = Mass.Zero, PortionMost = Mass.Zero }, "portionLeast");
        yield return (good with { PortionLeast = Mass.FromGrams(-9.5m) }, "portionLeast");
        yield return (good with { PortionMost = Mass.FromGrams(9.499999m) }, "portionLeast");
        yield return (good with { Seconds = 0 }, "seconds");
        yield return (good with { Seconds = -180 }, "seconds");
        yield return (good with { Seconds = 36_001 }, "seconds");
        yield return (good with { Replicates = 0 }, "replicates");
        yield return (good with { Replicates = 11 }, "replicates");
        yield return (good with { Percentiles = [] }, "percentiles");
        yield return (good with { Percentiles = [0m, 50m] }, "percentiles");
        yield return (good with { Percentiles = [50m, 100m] }, "percentiles");
        yield return (good with { PressureLowest = null }, "pressureLowest");
        yield return (good with { PressureLowest = Pressure.FromPascals(4501) }, "pressureLowest");
        yield return (good with { Procedure = SievingProcedure.NestedStack }, "pressureLowest");
        yield return (good with { LeastRecoveryPercent = 100.1m }, "leastRecoveryPercent");
        yield return (good with { MostTransferLossPercent = -0.1m }, "mostTransferLossPercent");
        yield return (good with { RepeatabilityLimitPercent = -2m }, "repeatabilityLimitPercent");
    }

    private static Task<Guid> WriteAsync(SmallLaboratory small, string code, MethodDraft draft) =>
        small.Get<MethodKeeping>().WriteAsync(small.People.LaboratoryManager.Actor, code, "Sieving of calcite", small.Calcite.ProductId, draft, null, default);
}
