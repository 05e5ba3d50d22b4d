using ParticleLims.Laboratory.Certificates;
using ParticleLims.Laboratory.Record;
using ParticleLims.Laboratory.Tests.Record;

namespace ParticleLims.Laboratory.Tests.Walks;

/// <summary>Certificates by role and by state.</summary>
public sealed class CertificateStateTests
{
    private const string Why = "As the notes of the day say";

    private static readonly StateDeed<CertificateState>[] Deeds =
    [
        Deed("suspend", [CertificateState.Issued], async (stage, who, id, _) => await stage.Get<CertificateLife>().SuspendAsync(who, id, Why, await VersionAsync(stage, id), default)),
        Deed("reinstate", [CertificateState.Suspended], async (stage, who, id, _) => await stage.Get<CertificateLife>().ReinstateAsync(who, id, Why, await VersionAsync(stage, id), default)),
        Deed("withdraw", [CertificateState.Issued, CertificateState.Suspended], async (stage, who, id, _) => await stage.Get<CertificateIssue>().WithdrawAsync(who, id, Why, await VersionAsync(stage, id), default)),
        Deed("revise", [CertificateState.Issued, CertificateState.Suspended], async (stage, who, id, _) =>
            await stage.Get<CertificateIssue>().ReviseAsync(who, id, "The customer's address", Why, await VersionAsync(stage, id), null, default)),
    ];

    [Theory]
    [EachDatabase]
    public async Task A_certificate_changes_its_state_only_by_the_quality_manager(DatabaseKind kind)
    {
        await using var stage = await Stage.OpenAsync(kind);
        await StateTrial.GoAsync(stage, Deeds, async state =>
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
                await Deeds.Single(deed => deed.Name == way).Act(stage, stage.ActorOf(Who.QualityManager), id, new SecretProof(Guid.Empty));
            }

            return id;
        });
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

    private static StateDeed<CertificateState> Deed(string name, CertificateState[] states, Func<Stage, Actor, Guid, SecretProof, Task> act) => new(name, Who.QualityManager, states, act) { Otherwise = _ => "certificate-state" };

    private static async Task<long> VersionAsync(Stage stage, Guid id)
    {
        await using var data = stage.Data();
        return (await data.FindAsync<Certificate>(id))!.Version;
    }
}
