using Microsoft.EntityFrameworkCore;
using ParticleLims.Laboratory.AccessReviews;
using ParticleLims.Laboratory.Alerts;
using ParticleLims.Laboratory.Heads;
using ParticleLims.Laboratory.Record;
using ParticleLims.Laboratory.Settings;
using static ParticleLims.Laboratory.Tests.Record.Ability;

namespace ParticleLims.Laboratory.Tests.Record;

/// <summary>What is done so that somebody notices: alerts, heads outside, reviews of access.</summary>
internal static class WatchAbilities
{
    private const string Why = "Asked for in writing";
    private static readonly Guid Nothing = Guid.CreateVersion7();
    private static readonly SecretProof NoProof = new(Nothing);
    private static readonly HeadWishes ToAFolder = new("/watch/heads", null, false, 24);
    private static readonly AlertLimits NoLimits = new(0, 0, 0, 0);

    public static IReadOnlyList<Ability> All { get; } = [.. Alerts, .. Heads, .. Access];

    private static IEnumerable<Ability> Alerts =>
    [
        Does("alerts.raise", Who.Program, null, (stage, _) => stage.Get<AlertRaising>().RaiseAsync(AlertKind.ClockStep, "seen", Guid.Empty, TimeSpan.Zero, default), stage => () => RaiseAsync(stage)),
        Does("alerts.raise", Who.Program, null, (stage, _) => stage.Get<ClockWatch>().LookAsync(default), stage =>
        {
            stage.Running.Clock.AdjustTime(stage.Running.Clock.GetUtcNow().AddDays(-1));
            return () => stage.Get<ClockWatch>().LookAsync(default);
        }),
        Does("alerts.close", Who.Administrator, "not-found", (stage, who) => stage.Get<AlertKeeping>().CloseAsync(who, Nothing, Why, 1, default), async stage =>
        {
            await RaiseAsync(stage);
            await using var data = stage.Data();
            var alert = await data.Alerts.Select(one => one.Id).SingleAsync();
            return () => stage.Get<AlertKeeping>().CloseAsync(Administrator(stage), alert, "The battery of the server's clock was empty", 1, default);
        }),
        Does("alerts.rules", Who.Administrator, "alert-limits", (stage, who) => stage.Get<AlertKeeping>().ChangeRulesAsync(who, null, false, NoLimits, Why, 0, default),
            stage => () => stage.Get<AlertKeeping>().ChangeRulesAsync(Administrator(stage), "watch@tarnfell.example", false, AlertLimits.Usual, Why, 0, default)),
        Reads(Who.Administrator, (stage, who) => stage.Get<AlertKeeping>().RecentAsync(who, 10, default)),
        Reads(Who.Administrator, (stage, who) => stage.Get<AlertKeeping>().RulesAsync(who, default)),
    ];

    private static IEnumerable<Ability> Heads =>
    [
        Does("heads.leave", Who.Administrator, null, (stage, who) => stage.Get<HeadDeparture>().LeaveAsync(who, default), async stage =>
        {
            await PlanAsync(stage);
            return () => stage.Get<HeadDeparture>().LeaveAsync(Administrator(stage), default);
        }),
        Does("heads.leave-by-plan", Who.Program, null, (stage, _) => stage.Get<HeadDeparture>().LeaveDueAsync(default), async stage =>
        {
            await PlanAsync(stage);
            return () => stage.Get<HeadDeparture>().LeaveDueAsync(default);
        }),
        Does("heads.plan", Who.Administrator, "changed-meanwhile", (stage, who) => stage.Get<HeadKeeping>().ChangePlanAsync(who, ToAFolder, Why, 9, default), stage => () => PlanAsync(stage)),
        Reads(Who.Auditors, (stage, who) => stage.Get<HeadKeeping>().BoardAsync(who, 10, default)),
    ];

    private static IEnumerable<Ability> Access =>
    [
        Does("access.review", Who.QualityManager, "changed-meanwhile", (stage, who) => stage.Get<AccessReviewing>().SignAsync(who, "All as it should be", NoProof, "none", default), async stage =>
        {
            var manager = stage.People.QualityManager;
            var (proof, board) = (await stage.Small.ProofAsync(manager), await stage.Get<AccessReviewing>().BoardAsync(manager.Actor, default));
            return () => stage.Get<AccessReviewing>().SignAsync(manager.Actor, "All as it should be", proof, board.List.ContentHash, default);
        }),
        Does("settings.access-review", Who.Administrator, "changed-meanwhile", (stage, who) => stage.Get<SettingsKeeping>().ChangeAccessReviewAsync(who, 90, Why, 99, default),
            stage => () => stage.Get<SettingsKeeping>().ChangeAccessReviewAsync(Administrator(stage), 90, Why, 1, default)),
        Reads(Who.QualityManager | Who.Administrator, (stage, who) => stage.Get<AccessReviewing>().BoardAsync(who, default)),
        Reads(Who.QualityManager | Who.Administrator, (stage, who) => stage.Get<AccessReviewing>().ContentAsync(who, Nothing, default)),
    ];

    private static Task<bool> RaiseAsync(Stage stage) => stage.Get<AlertRaising>().RaiseAsync(AlertKind.ClockStep, "The clock jumped", Guid.Empty, TimeSpan.FromMinutes(10), default);

    private static Task<bool> PlanAsync(Stage stage) => stage.Get<HeadKeeping>().ChangePlanAsync(Administrator(stage), ToAFolder, Why, 0, default);

    private static Actor Administrator(Stage stage) => stage.People.Administrator.Actor;
}
