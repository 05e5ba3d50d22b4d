using Microsoft.EntityFrameworkCore;
using ParticleLims.Laboratory.Outgoing;
using ParticleLims.Laboratory.Record;

namespace ParticleLims.Laboratory.Alerts;

/// <summary>Raises an alert: its event, its place on the administrators' page, its message to the security contact, all in one deed.</summary>
public sealed class AlertRaising(WritePath writing)
{
    private const string Kind = "security-alert";
    private static readonly DeedKind RaiseDeed = new("alerts.raise", "Alert raised", Permission.ActAsProgram);

    /// <summary>Raises it, unless the same was raised a short while ago; answers whether it did.</summary>
    /// <param name="kind">What kind.</param>
    /// <param name="words">What was seen, without secrets.</param>
    /// <param name="subject">Whom or what it is about; empty for nobody in particular.</param>
    /// <param name="quietFor">How long the same is not raised again.</param>
    /// <param name="cancellation">Ends it.</param>
    public async Task<bool> RaiseAsync(AlertKind kind, string words, Guid subject, TimeSpan quietFor, CancellationToken cancellation)
    {
        try
        {
            return await writing.CarryOutAsync(new Deed(RaiseDeed, Actor.Program), async (scope, token) =>
            {
                var since = scope.Now - quietFor;
                if (await scope.Data.Alerts.AnyAsync(other => other.Kind == kind && other.SubjectId == subject && other.At > since && other.At <= scope.Now, token))
                {
                    throw new RaisedBeforeException();
                }

                await RaiseAsync(scope, kind, words, subject, token);
                return true;
            }, cancellation);
        }
        catch (RaisedBeforeException)
        {
            return false;
        }
    }

    private static async Task RaiseAsync(DeedScope scope, AlertKind kind, string words, Guid subject, CancellationToken cancellation)
    {
        var alert = new Alert { Id = scope.NewId(), Kind = kind, At = scope.Now, Words = words, SubjectId = subject };
        scope.Data.Add(alert);
        scope.About(nameof(Alert), alert.Id, kind.Words());
        var rules = await scope.Data.AlertRulesAsync(cancellation);
        var news = new News(Kind, (nameof(Alert), alert.Id), $"Alert: {kind.Words()}", $"{words}\n\nSeen {RecordChain.InstantText(scope.Now)}. Look at the start page of the laboratory's administrator, and say there what it was.");
        await scope.MailAsync(news, rules.Addressees, cancellation);
        if (rules.Post)
        {
            await scope.PostAsync(news, cancellation);
        }
    }

    /// <summary>Leaves the deed without an event: there is nothing new to say.</summary>
    private sealed class RaisedBeforeException() : RefusedException("alert-raised", "The same alert was raised a short while ago.");
}
