using System.Text.Json;
using Microsoft.EntityFrameworkCore;
using ParticleLims.Laboratory.Certificates;
using ParticleLims.Laboratory.Lots;
using ParticleLims.Laboratory.Outgoing;

namespace ParticleLims.Laboratory.Tests.Deliveries;

/// <summary>News of the laboratory's work is posted to the webhook, as far as the administrator chose it.</summary>
public sealed class PostedNewsTests
{
    [Theory]
    [EachDatabase]
    public async Task Only_chosen_news_is_posted_whichever_deed_it_was_and_with_its_facts_for_programs(DatabaseKind kind)
    {
        await using var opened = await OpenedSmallLaboratory.OpenAsync(kind);
        var (small, keeping) = (opened.Small, opened.Get<OutgoingKeeping>());
        var (administrator, quality) = (small.People.Administrator.Actor, small.People.QualityManager.Actor);
        await keeping.ChangeAsync(administrator, new OutgoingWays(null, "https://watch.tarnfell.example/laboratory"), "The planning asks", 0, default);
        var unwatched = await (await small.BookInAsync(small.Calcite)).ReleaseAsync(Powder.Calcite);
        await small.Desk.IssueAsync(unwatched.Id, unwatched.Sample.Id);
        (await PostedAsync(opened)).ShouldBeEmpty("nothing is posted that nobody chose");

        await opened.ShouldRefuseAsync("news-unknown", () => keeping.ChoosePostedAsync(administrator, ["weather"], "The planning asks", 1, default));
        await keeping.ChoosePostedAsync(administrator, [.. PostedNews.All.Select(one => one.Kind)], "The planning asks", 1, default);
        var lot = await (await small.BookInAsync(small.Calcite)).ReleaseAsync(Powder.Calcite);
        var first = await small.Desk.IssueAsync(lot.Id, lot.Sample.Id);
        await small.Get<CertificateLife>().SuspendAsync(quality, first, "The customer found lumps", 1, default);
        await small.Get<CertificateLife>().ReinstateAsync(quality, first, "Lumps from damp storage there", 2, default);
        var second = await small.Get<CertificateIssue>().ReviseAsync(quality, first, "The customer's reference", "It was another order", 3, null, default);
        await small.Get<CertificateIssue>().WithdrawAsync(quality, second, "The wrong sample was divided", 1, default);
        await (await small.BookInAsync(small.Calcite)).SubmitAsync(Powder.CoarseCalcite);

        var posted = await PostedAsync(opened);
        posted.Select(message => message.Kind).ShouldBe(
            ["lot-state", "lot-state", "certificate-issued", "certificate-suspended", "certificate-reinstated", "certificate-revised", "certificate-withdrawn", "lot-state", "investigation-opened"], ignoreOrder: true);
        var states = posted.Where(message => message.Kind == "lot-state").Select(message => FactsOf(message)).Select(facts => (facts.GetProperty("stateBefore").GetString(), facts.GetProperty("state").GetString()));
        states.ShouldBe([("awaitingResults", "awaitingDisposition"), ("awaitingDisposition", "released"), ("awaitingResults", "onHold")], ignoreOrder: true);
        var revised = FactsOf(posted.Single(message => message.Kind == "certificate-revised"));
        (revised.GetProperty("number").GetString(), revised.GetProperty("revision").GetInt32(), revised.GetProperty("replaces").GetString(), revised.GetProperty("state").GetString()).ShouldBe(("C-26-00003", 2, "C-26-00002", "issued"));
        posted.Single(message => message.Kind == "certificate-withdrawn").Text.ShouldBe($"Certificate C-26-00003 of lot {await NumberAsync(opened, lot.Id)} was withdrawn.");

        await keeping.ChoosePostedAsync(administrator, [], "The planning has gone", 2, default);
        await (await small.BookInAsync(small.Calcite)).ReleaseAsync(Powder.Calcite);
        (await PostedAsync(opened)).Count.ShouldBe(posted.Count);
    }

    private static JsonElement FactsOf(OutgoingMessage message) => JsonDocument.Parse(message.Facts!).RootElement;

    private static async Task<string> NumberAsync(OpenedSmallLaboratory opened, Guid lot)
    {
        await using var data = opened.Data();
        return await data.Lots.Where(one => one.Id == lot).Select(one => one.Number).SingleAsync();
    }

    private static async Task<List<OutgoingMessage>> PostedAsync(OpenedSmallLaboratory opened)
    {
        await using var data = opened.Data();
        return await data.OutgoingMessages.AsNoTracking().Where(message => message.Way == OutgoingWay.Webhook).ToListAsync();
    }
}
