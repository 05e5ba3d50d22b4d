using Microsoft.EntityFrameworkCore;
using ParticleLims.Analysis.Quantities;
using ParticleLims.Laboratory.Certificates;
using ParticleLims.Laboratory.Equipment;
using ParticleLims.Laboratory.Record;
using ParticleLims.Laboratory.Sieves;
using ParticleLims.Laboratory.Tests.Record;

namespace ParticleLims.Laboratory.Tests.Walks;

/// <summary>Equipment and certificates by role and by state: what the table does not give is refused and writes nothing; what it gives succeeds.</summary>
public sealed class ShelfStateTests
{
    private const string Why = "As the notes of the day say";
    private static readonly DateOnly Due = new(2027, 3, 1);
    private static readonly Who[] Everybody = [Who.Technician, Who.Reviewer, Who.QualityManager, Who.LaboratoryManager, Who.Administrator, Who.Customer, Who.NotSignedOn];

    private static readonly (string Name, Who May, EquipmentState[] In, Func<EquipmentLife<TestSieve>, Actor, Guid, long, Task> Act)[] EquipmentDeeds =
    [
        ("commission", Who.LaboratoryManager, [EquipmentState.AwaitingCommissioning], (life, who, id, version) => life.CommissionAsync(who, id, Why, Due, version, default)),
        ("inspect", Who.LaboratoryManager, [EquipmentState.AwaitingCommissioning, EquipmentState.InService, EquipmentState.OutOfService], (life, who, id, version) => life.InspectAsync(who, id, Why, Due, version, default)),
        ("take out of service", Who.Staff, [EquipmentState.AwaitingCommissioning, EquipmentState.InService], (life, who, id, version) => life.StopAsync(who, id, Why, version, default)),
        ("return to service", Who.LaboratoryManager, [EquipmentState.OutOfService], (life, who, id, version) => life.ReturnAsync(who, id, Why, Due, version, default)),
        ("scrap", Who.LaboratoryManager, [EquipmentState.OutOfService], (life, who, id, version) => life.ScrapAsync(who, id, Why, version, default)),
    ];

    private static readonly (string Name, CertificateState[] In, Func<Stage, Actor, Guid, long, Task> Act)[] CertificateDeeds =
    [
        ("suspend", [CertificateState.Issued], (stage, who, id, version) => stage.Get<CertificateLife>().SuspendAsync(who, id, Why, version, default)),
        ("reinstate", [CertificateState.Suspended], (stage, who, id, version) => stage.Get<CertificateLife>().ReinstateAsync(who, id, Why, version, default)),
        ("withdraw", [CertificateState.Issued, CertificateState.Suspended], (stage, who, id, version) => stage.Get<CertificateIssue>().WithdrawAsync(who, id, Why, version, default)),
        ("revise", [CertificateState.Issued, CertificateState.Suspended], (stage, who, id, version) => stage.Get<CertificateIssue>().ReviseAsync(who, id, "The customer's address", Why, version, null, default)),
    ];

    [Theory]
    [EachDatabase]
    public async Task Equipment_is_moved_from_state_to_state_only_by_those_who_may(DatabaseKind kind)
    {
        await using var stage = await Stage.OpenAsync(kind);
        foreach (var state in Enum.GetValues<EquipmentState>())
        {
            var sieve = await SieveAsync(stage, state);
            foreach (var deed in EquipmentDeeds)
            {
                foreach (var who in Everybody.Where(who => !deed.May.HasFlag(who) || !deed.In.Contains(state)))
                {
                    await RefusedAsync(stage, deed.May.HasFlag(who) ? "equipment-state" : "not-permitted", $"{who}: {deed.Name}, {state}", async () =>
                        await deed.Act(stage.Get<EquipmentLife<TestSieve>>(), stage.ActorOf(who), sieve, await VersionAsync<TestSieve>(stage, sieve)));
                }

                if (deed.In.Contains(state))
                {
                    var another = await SieveAsync(stage, state);
                    await deed.Act(stage.Get<EquipmentLife<TestSieve>>(), stage.ActorOf(Who.LaboratoryManager), another, await VersionAsync<TestSieve>(stage, another));
                }
            }
        }
    }

    [Theory]
    [EachDatabase]
    public async Task A_certificate_changes_its_state_only_by_the_quality_manager(DatabaseKind kind)
    {
        await using var stage = await Stage.OpenAsync(kind);
        foreach (var state in Enum.GetValues<CertificateState>())
        {
            var certificate = await CertificateAsync(stage, state);
            foreach (var deed in CertificateDeeds)
            {
                foreach (var who in Everybody.Where(who => who != Who.QualityManager || !deed.In.Contains(state)))
                {
                    await RefusedAsync(stage, who == Who.QualityManager ? "certificate-state" : "not-permitted", $"{who}: {deed.Name}, {state}", async () =>
                        await deed.Act(stage, stage.ActorOf(who), certificate, await VersionAsync<Certificate>(stage, certificate)));
                }

                if (deed.In.Contains(state))
                {
                    var another = await CertificateAsync(stage, state);
                    await deed.Act(stage, stage.ActorOf(Who.QualityManager), another, await VersionAsync<Certificate>(stage, another));
                }
            }
        }
    }

    /// <summary>Re-opening a lot suspends its certificates: they come back only with the lot.</summary>
    [Theory]
    [EachDatabase]
    public async Task A_certificate_is_not_reinstated_while_its_lot_is_not_released(DatabaseKind kind)
    {
        await using var laboratory = await OpenedSmallLaboratory.OpenAsync(kind);
        var (small, desk, quality) = (laboratory.Small, laboratory.Small.Desk, laboratory.Small.People.QualityManager.Actor);
        var lot = await (await small.BookInAsync(small.Calcite)).ReleaseAsync(Powder.Calcite);
        var certificate = await desk.IssueAsync(lot.Id, lot.Sample.Id);
        laboratory.Running.Clock.Advance(TimeSpan.FromMinutes(1));
        await desk.AskReopeningAsync(lot.Id);
        await desk.ReopenAsync(lot.Id);
        await laboratory.ShouldRefuseAsync("lot-not-released", () => small.Get<CertificateLife>().ReinstateAsync(quality, certificate, Why, 2, default));
        laboratory.Running.Clock.Advance(TimeSpan.FromMinutes(1));
        await desk.ReleaseAsync(lot.Id);
        await small.Get<CertificateLife>().ReinstateAsync(quality, certificate, Why, 2, default);
    }

    private static async Task<Guid> SieveAsync(Stage stage, EquipmentState state)
    {
        var (life, manager) = (stage.Get<EquipmentLife<TestSieve>>(), stage.People.LaboratoryManager.Actor);
        var card = new SieveCard("TS-" + Guid.NewGuid().ToString("N")[..16], Aperture.FromMicrometres(45m), 200, "ISO 3310-1:2016", "Rack A");
        var id = await stage.Get<SieveRegister>().RegisterAsync(manager, card, null, default);
        if (state == EquipmentState.InService)
        {
            await life.CommissionAsync(manager, id, Why, Due, 1, default);
        }
        else if (state != EquipmentState.AwaitingCommissioning)
        {
            await life.StopAsync(manager, id, Why, 1, default);
        }

        if (state == EquipmentState.Scrapped)
        {
            await life.ScrapAsync(manager, id, Why, 2, default);
        }

        return id;
    }

    private static async Task<Guid> CertificateAsync(Stage stage, CertificateState state)
    {
        var lot = await (await stage.Small.BookInAsync(stage.Small.Spice)).ReleaseAsync(Powder.Spice);
        var id = await stage.Desk.IssueAsync(lot.Id, lot.Sample.Id);
        var way = state switch
        {
            CertificateState.Issued => null,
            CertificateState.Suspended => "suspend",
            CertificateState.Withdrawn => "withdraw",
            _ => "revise",
        };
        if (way is not null)
        {
            await CertificateDeeds.Single(deed => deed.Name == way).Act(stage, stage.ActorOf(Who.QualityManager), id, 1);
        }

        return id;
    }

    private static async Task<long> VersionAsync<T>(Stage stage, Guid id)
        where T : class, ParticleLims.Laboratory.Storage.IVersioned
    {
        await using var data = stage.Data();
        return (await data.FindAsync<T>(id))!.Version;
    }

    private static async Task RefusedAsync(Stage stage, string code, string told, Func<Task> act)
    {
        var before = await stage.SumAsync();
        (await Should.ThrowAsync<RefusedException>(act, told)).Code.ShouldBe(code, told);
        (await stage.SumAsync()).ShouldBe(before, told);
    }
}
