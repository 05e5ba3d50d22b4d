using ParticleLims.Laboratory.People;
using ParticleLims.Laboratory.Settings;
using ParticleLims.Laboratory.Terminals;

namespace ParticleLims.Laboratory.Tests.Settings;

public sealed class SetUpTests
{
    [Theory]
    [EachDatabase]
    public async Task An_empty_laboratory_is_set_up_by_its_link_once(DatabaseKind kind)
    {
        await using var laboratory = await RunningLaboratory.OpenAsync(kind);
        var link = await laboratory.Get<LaboratorySetUp>().MakeLinkAsync(default);
        var identity = new LaboratoryIdentity("Tarnfell Milling", "Mill Lane 1\nTarnfell", "lab@tarnfell.example", "Europe/Dublin", "http://localhost:5000");
        await laboratory.Get<LaboratorySetUp>().OpenAsync(link, identity, new NewPerson("ada", "Ada Field", [], "seven blue kettles sing"), "T1", default);
        (await laboratory.Get<LaboratorySetUp>().IsDoneAsync(default)).ShouldBeTrue();
        var on = await laboratory.Get<SignOn>().SignOnAsync("ada", "seven blue kettles sing", new TerminalSeen("T1"), default);
        on.FullName.ShouldBe("Ada Field");
    }
}
