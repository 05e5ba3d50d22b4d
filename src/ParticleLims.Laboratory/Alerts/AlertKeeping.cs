using Microsoft.EntityFrameworkCore;
using ParticleLims.Laboratory.Outgoing;
using ParticleLims.Laboratory.Record;

namespace ParticleLims.Laboratory.Alerts;

/// <summary>Shows alerts, keeps what was found out about them, and who is called.</summary>
public sealed class AlertKeeping(WritePath writing, ReadPath reading)
{
    private static readonly DeedKind CloseDeed = new("alerts.close", "Alert looked into", Permission.KeepSettings);
    private static readonly DeedKind RulesDeed = new("alerts.rules", "Rules for alerts changed", Permission.KeepSettings, ReasonRequired: true);

    /// <summary>The newest alerts, open ones first.</summary>
    public Task<List<Alert>> RecentAsync(Actor actor, int take, CancellationToken cancellation) =>
        reading.ReadAsync(actor, Permission.KeepSettings, (data, _, token) => data.Alerts.OrderBy(alert => alert.ClosedAt != null).ThenByDescending(alert => alert.At).Take(Math.Clamp(take, 1, 500)).ToListAsync(token), cancellation);

    /// <summary>The rules; the usual ones while nobody set any.</summary>
    public Task<AlertRules> RulesAsync(Actor actor, CancellationToken cancellation) => reading.ReadAsync(actor, Permission.KeepSettings, (data, _, token) => data.AlertRulesAsync(token), cancellation);

    /// <summary>Says what an alert was; it stays in the list of all.</summary>
    public Task<bool> CloseAsync(Actor actor, Guid id, string finding, long version, CancellationToken cancellation) =>
        writing.CarryOutAsync(new Deed(CloseDeed, actor), async (scope, token) =>
        {
            var alert = await scope.FindAsync<Alert>(id, "alert", token);
            DeedScope.RequireVersion(alert, version, "The alert");
            if (alert.ClosedAt is not null)
            {
                throw new RefusedException("alert-closed", $"{alert.ClosedByName} has looked into this alert already.");
            }

            if ((finding?.Trim().Length ?? 0) < 5)
            {
                throw new RefusedException("finding-missing", "Say in a few words what it was (at least five letters).", "finding");
            }

            scope.About(nameof(Alert), alert.Id, alert.Kind.Words());
            (alert.ClosedAt, alert.ClosedById, alert.ClosedByName, alert.Finding) = (scope.Now, scope.PersonId, scope.By.Name, finding!.Trim());
            return true;
        }, cancellation);

    /// <summary>Changes who is called and when.</summary>
    /// <param name="actor">Who changes it.</param>
    /// <param name="contact">Mail addresses with commas between; null for nobody.</param>
    /// <param name="post">Whether alerts are posted to the webhook too.</param>
    /// <param name="limits">When an alert is raised.</param>
    /// <param name="reason">Why.</param>
    /// <param name="version">The version that was read.</param>
    /// <param name="cancellation">Ends it.</param>
    public Task<bool> ChangeRulesAsync(Actor actor, string? contact, bool post, AlertLimits limits, string reason, long version, CancellationToken cancellation)
    {
        ArgumentNullException.ThrowIfNull(limits);
        return writing.CarryOutAsync(new Deed(RulesDeed, actor, Reason: reason), async (scope, token) =>
        {
            limits.Check();
            var rules = await scope.Data.AlertRulesAsync(token);
            DeedScope.RequireVersion(rules, version, "The rules for alerts");
            if (rules.Version == 0)
            {
                scope.Data.Add(rules);
            }

            scope.About(nameof(AlertRules), rules.Id, "Rules for alerts");
            (rules.Contact, rules.Post) = (string.IsNullOrWhiteSpace(contact) ? null : string.Join(", ", MailAddresses.Read(contact, "contact")), post);
            (rules.TriesOfOne, rules.TriesOfAll, rules.WithinMinutes, rules.ClockStepSeconds) = (limits.TriesOfOne, limits.TriesOfAll, limits.WithinMinutes, limits.ClockStepSeconds);
            return true;
        }, cancellation);
    }
}
