using System.Globalization;
using Microsoft.EntityFrameworkCore;
using ParticleLims.Laboratory.Outgoing;
using ParticleLims.Laboratory.Record;
using ParticleLims.Laboratory.Settings;
using ParticleLims.Laboratory.Storage;

namespace ParticleLims.Laboratory.Heads;

/// <summary>Lets a head of the record leave the machine: into a folder, by mail, to the webhook, whatever the plan says.</summary>
public sealed class HeadDeparture(WritePath writing, ReadPath reading, IHeadOutside outside, TimeProvider clock)
{
    private static readonly DeedKind LeaveDeed = new("heads.leave", "Head of the record sent out", Permission.KeepSettings);
    private static readonly DeedKind PlannedDeed = new("heads.leave-by-plan", "Head of the record sent out by the plan", Permission.ActAsProgram);
    private static readonly TimeSpan AfterFault = TimeSpan.FromHours(1);

    private sealed record Ready(HeadPlan Plan, string Laboratory, long Sequence, string Hash, DateTimeOffset EventAt);

    /// <summary>Lets one leave now.</summary>
    /// <exception cref="RefusedException">The plan says of no place.</exception>
    public async Task<bool> LeaveAsync(Actor actor, CancellationToken cancellation)
    {
        var ready = await reading.ReadAsync(actor, Permission.KeepSettings, (data, _, token) => ReadyAsync(data, token), cancellation);
        return ready.Plan.Wishes.Anywhere
            ? await LeaveAsync(new Deed(LeaveDeed, actor), ready, cancellation)
            : throw new RefusedException("head-nowhere", "The plan says of no place where heads go. Write a folder, a mail address or the webhook into it first.");
    }

    /// <summary>Lets one leave when the plan says so, and again an hour after one that went nowhere; answers whether one left.</summary>
    public async Task<bool> LeaveDueAsync(CancellationToken cancellation)
    {
        var (ready, due) = await reading.ReadAsync(Actor.Program, Permission.ActAsProgram, async (data, _, token) =>
        {
            var plan = await data.HeadPlanAsync(token);
            return !plan.Wishes.Anywhere || !await IsDueAsync(data, plan, token) ? (null, false) : (await ReadyAsync(data, token), true);
        }, cancellation);
        return due && await LeaveAsync(new Deed(PlannedDeed, Actor.Program), ready!, cancellation);
    }

    private async Task<bool> IsDueAsync(LaboratoryContext data, HeadPlan plan, CancellationToken cancellation)
    {
        var last = await data.HeadLeavings.OrderByDescending(one => one.LeftAt).FirstOrDefaultAsync(cancellation);
        var wait = last is { Outside: false } && plan.EveryHours > AfterFault.TotalHours ? AfterFault : TimeSpan.FromHours(plan.EveryHours);
        return last is null || clock.GetUtcNow() - last.LeftAt >= wait;
    }

    private static async Task<Ready> ReadyAsync(LaboratoryContext data, CancellationToken cancellation)
    {
        var last = await data.Events.OrderByDescending(one => one.Sequence).Select(one => new { one.Sequence, one.Hash, one.At }).FirstAsync(cancellation);
        return new Ready(await data.HeadPlanAsync(cancellation), (await SettingsKeeping.OfAsync(data, cancellation)).Name, last.Sequence, last.Hash, last.At);
    }

    // The folder may lie on a machine that does not answer: it is written before the transaction, which holds up everybody.
    private async Task<bool> LeaveAsync(Deed deed, Ready ready, CancellationToken cancellation)
    {
        var now = clock.GetUtcNow();
        var lines = HeadText.Write(ready.Laboratory, ready.Sequence, ready.Hash, ready.EventAt, now);
        var text = HeadText.Sign(lines, outside.Sign(ready.Laboratory, lines));
        var name = string.Create(CultureInfo.InvariantCulture, $"head-{ready.Sequence:00000000}-{now.UtcDateTime:yyyyMMdd-HHmmss}.txt");
        var fault = ready.Plan.Folder is { } folder ? await outside.WriteAsync(folder, name, text, cancellation) : null;
        return await writing.CarryOutAsync(deed, async (scope, token) =>
        {
            var id = scope.NewId();
            var places = await TellAsync(scope, ready, new NewsFile(name, "text/plain", HeadFiles.Head, id), text, token);
            if (ready.Plan.Folder is not null && fault is null)
            {
                places.Insert(0, Path.Combine(ready.Plan.Folder, name));
            }

            scope.Data.Add(new HeadLeaving { Id = id, Sequence = ready.Sequence, Hash = ready.Hash, EventAt = ready.EventAt, LeftAt = scope.Now, Text = text, Places = string.Join("; ", places), Fault = fault, Outside = places.Count > 0 });
            scope.About(nameof(HeadLeaving), id, string.Create(CultureInfo.InvariantCulture, $"Head of event {ready.Sequence}"));
            return places.Count > 0;
        }, cancellation);
    }

    private static async Task<List<string>> TellAsync(DeedScope scope, Ready ready, NewsFile file, string text, CancellationToken cancellation)
    {
        var places = new List<string>();
        var news = new News("record-head", (nameof(HeadLeaving), file.SourceId), string.Create(CultureInfo.InvariantCulture, $"Head of the record: event {ready.Sequence}"), "Keep this mail where the laboratory cannot reach it.\n\n" + text, [file]);
        if (ready.Plan.MailTo is { } mailTo && await scope.MailAsync(news, MailAddresses.Read(mailTo, "mailTo"), cancellation) > 0)
        {
            places.Add("by mail to " + mailTo);
        }

        if (ready.Plan.Post && await scope.PostAsync(news, cancellation) > 0)
        {
            places.Add("to the webhook");
        }

        return places;
    }
}
