using Microsoft.EntityFrameworkCore;
using ParticleLims.Laboratory.Outgoing;
using ParticleLims.Laboratory.Record;

namespace ParticleLims.Laboratory.Heads;

/// <summary>How it stands with heads outside.</summary>
/// <param name="Plan">The plan.</param>
/// <param name="Last">The last one that left; null for none.</param>
/// <param name="Recent">The newest, also those that went nowhere.</param>
/// <param name="Warning">What is wrong, in words; null when a head left in time.</param>
public sealed record HeadBoard(HeadPlan Plan, HeadLeaving? Last, IReadOnlyList<HeadLeaving> Recent, string? Warning);

/// <summary>Shows which heads left and when, and keeps the plan.</summary>
public sealed class HeadKeeping(WritePath writing, ReadPath reading, TimeProvider clock)
{
    private static readonly DeedKind PlanDeed = new("heads.plan", "Plan for heads of the record changed", Permission.KeepSettings, ReasonRequired: true);

    /// <summary>How it stands.</summary>
    public Task<HeadBoard> BoardAsync(Actor actor, int take, CancellationToken cancellation) =>
        reading.ReadAsync(actor, Permission.ReadRecord, async (data, _, token) =>
        {
            var plan = await data.HeadPlanAsync(token);
            var last = await data.HeadLeavings.Where(one => one.Outside).OrderByDescending(one => one.LeftAt).FirstOrDefaultAsync(token);
            var undelivered = last is not null && await data.OutgoingMessages.AnyAsync(message => message.SubjectId == last.Id && (message.State == OutgoingState.GivenUp || message.State == OutgoingState.Refused), token);
            return new HeadBoard(plan, last, await data.HeadLeavings.OrderByDescending(one => one.LeftAt).Take(Math.Clamp(take, 1, 500)).ToListAsync(token), Warning(plan, last, undelivered));
        }, cancellation);

    /// <summary>Changes where heads go and how often.</summary>
    public Task<bool> ChangePlanAsync(Actor actor, HeadWishes wishes, string reason, long version, CancellationToken cancellation)
    {
        ArgumentNullException.ThrowIfNull(wishes);
        return writing.CarryOutAsync(new Deed(PlanDeed, actor, Reason: reason), async (scope, token) =>
        {
            wishes.Check();
            var plan = await scope.Data.HeadPlanAsync(token);
            DeedScope.RequireVersion(plan, version, "The plan for heads");
            if (plan.Version == 0)
            {
                scope.Data.Add(plan);
            }

            var ways = (await OutgoingKeeping.OfAsync(scope.Data, token)).Ways;
            Require(wishes.MailTo is null || ways.IsOpen(OutgoingWay.Mail), "mailTo", "No mail server is set. Set it under Outgoing messages first.");
            Require(!wishes.Post || ways.IsOpen(OutgoingWay.Webhook), "post", "No webhook is set. Set it under Outgoing messages first.");
            scope.About(nameof(HeadPlan), plan.Id, "Plan for heads of the record");
            (plan.Folder, plan.MailTo, plan.Post, plan.EveryHours) = (wishes.Folder, wishes.MailTo, wishes.Post, wishes.EveryHours);
            return true;
        }, cancellation);
    }

    private string? Warning(HeadPlan plan, HeadLeaving? last, bool undelivered) => (plan, last) switch
    {
        ({ Wishes.Anywhere: false }, _) => "No head leaves this machine by itself: whoever has the database in hand could rewrite all of it unseen. Say where heads go.",
        (_, null) => "No head has left this machine yet.",
        var (set, left) when clock.GetUtcNow() - left.LeftAt > TimeSpan.FromHours(set.EveryHours) + Late => "The last head left longer ago than the plan says.",
        _ => undelivered ? "The last head was not taken by its addressee: see Outgoing messages." : null,
    };

    // The program looks every minute; a warning should not flicker.
    private static readonly TimeSpan Late = TimeSpan.FromMinutes(30);

    private static void Require(bool holds, string member, string words)
    {
        if (!holds)
        {
            throw new RefusedException("way-shut", words, member);
        }
    }
}
