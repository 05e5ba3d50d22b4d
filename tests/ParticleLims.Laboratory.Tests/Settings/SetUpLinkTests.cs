using ParticleLims.Laboratory.People;
using ParticleLims.Laboratory.Record;
using ParticleLims.Laboratory.Settings;

namespace ParticleLims.Laboratory.Tests.Settings;

public sealed class SetUpLinkTests
{
    private static readonly LaboratoryIdentity Identity = new("Tarnfell Milling", "Mill Lane 1\nTarnfell", "lab@tarnfell.example", "Europe/Dublin", "http://localhost:5000");
    private static readonly NewPerson Ada = new("ada", "Ada Field", [], "seven blue kettles sing");

    [Theory]
    [EachDatabase]
    public async Task A_link_works_until_its_hour_is_over(DatabaseKind kind)
    {
        await using var laboratory = await RunningLaboratory.OpenAsync(kind);
        var setUp = laboratory.Get<LaboratorySetUp>();
        var late = await setUp.MakeLinkAsync(default);
        laboratory.Clock.Advance(LaboratorySetUp.LinkLasts - TimeSpan.FromTicks(10));
        (await setUp.IsLinkGoodAsync(late, default)).ShouldBeTrue();
        laboratory.Clock.Advance(TimeSpan.FromTicks(10));
        (await setUp.IsLinkGoodAsync(late, default)).ShouldBeFalse();
        await RefuseAsync(laboratory, late, "set-up-link");
        (await setUp.IsDoneAsync(default)).ShouldBeFalse();
        await setUp.OpenAsync(await setUp.MakeLinkAsync(default), Identity, Ada, "T1", default);
    }

    [Theory]
    [EachDatabase]
    public async Task A_newer_link_ends_the_earlier_one_and_each_is_good_for_one_laboratory(DatabaseKind kind)
    {
        await using var laboratory = await RunningLaboratory.OpenAsync(kind);
        var setUp = laboratory.Get<LaboratorySetUp>();
        var earlier = await setUp.MakeLinkAsync(default);
        var link = await setUp.MakeLinkAsync(default);
        await RefuseAsync(laboratory, earlier, "set-up-link");
        await RefuseAsync(laboratory, string.Empty, "set-up-link");
        await RefuseAsync(laboratory, link, "laboratory", Identity with { Name = " " });
        await RefuseAsync(laboratory, link, "laboratory", Identity with { TimeZone = "Middle/Earth" });
        await RefuseAsync(laboratory, link, "public-address", Identity with { PublicAddress = "ftp://lab" });
        (await setUp.IsLinkGoodAsync(link, default)).ShouldBeTrue("what was refused used nothing up");
        await setUp.OpenAsync(link, Identity, Ada, "T1", default);
        await RefuseAsync(laboratory, link, "set-up-link");
        (await Should.ThrowAsync<RefusedException>(() => setUp.MakeLinkAsync(default))).Code.ShouldBe("set-up-done");
    }

    private static async Task RefuseAsync(RunningLaboratory laboratory, string link, string code, LaboratoryIdentity? identity = null)
    {
        await using var data = laboratory.Data();
        var before = await Untouched.SumAsync(data);
        (await Should.ThrowAsync<RefusedException>(() => laboratory.Get<LaboratorySetUp>().OpenAsync(link, identity ?? Identity, Ada, "T1", default))).Code.ShouldBe(code);
        (await Untouched.SumAsync(data)).ShouldBe(before);
    }
}
