using System.Globalization;
using Microsoft.EntityFrameworkCore;
using ParticleLims.Laboratory.Record;
using ParticleLims.Laboratory.Storage;

namespace ParticleLims.Laboratory.Alerts;

/// <summary>Counts wrong sign-ons and wrong signatures together, as the record holds them, and raises an alert when they come in a burst.</summary>
public sealed class WrongSecretsWatch(IDbContextFactory<LaboratoryContext> contexts, AlertRaising raising)
{
    private sealed record Burst(int OfOne, int OfAll, string LastTerminal);

    /// <summary>Looks after a wrong secret was recorded.</summary>
    /// <param name="codes">The codes of the events that count.</param>
    /// <param name="person">Whose secret it was to be; null for somebody unknown.</param>
    /// <param name="now">The instant of looking.</param>
    /// <param name="cancellation">Ends it.</param>
    internal async Task LookAsync(IReadOnlyCollection<string> codes, (Guid Id, string Name)? person, DateTimeOffset now, CancellationToken cancellation)
    {
        await using var data = await contexts.CreateDbContextAsync(cancellation);
        var limits = (await data.AlertRulesAsync(cancellation)).Limits;
        var quiet = TimeSpan.FromMinutes(limits.WithinMinutes);
        var burst = await BurstAsync(data, codes, person?.Id, now - quiet, cancellation);
        if (person is { } one && burst.OfOne >= limits.TriesOfOne)
        {
            await raising.RaiseAsync(AlertKind.WrongSecrets, Say($"{burst.OfOne} wrong passwords, PINs or badges for {one.Name} within {limits.WithinMinutes} minutes, the last one at {burst.LastTerminal}."), one.Id, quiet, cancellation);
        }

        if (burst.OfAll >= limits.TriesOfAll && burst.OfAll > burst.OfOne)
        {
            await raising.RaiseAsync(AlertKind.WrongSecrets, Say($"{burst.OfAll} wrong passwords, PINs or badges of several or unknown people within {limits.WithinMinutes} minutes, the last one at {burst.LastTerminal}."), Guid.Empty, quiet, cancellation);
        }
    }

    private static async Task<Burst> BurstAsync(LaboratoryContext data, IReadOnlyCollection<string> codes, Guid? person, DateTimeOffset since, CancellationToken cancellation)
    {
        var wrong = await data.Events.AsNoTracking().Where(one => one.At > since && codes.Contains(one.Code)).OrderByDescending(one => one.Sequence)
            .Select(one => new { one.SubjectId, one.Terminal }).Take(1_000).ToListAsync(cancellation);
        return new Burst(wrong.Count(one => one.SubjectId == person), wrong.Count, wrong.FirstOrDefault()?.Terminal ?? "an unknown terminal");
    }

    private static string Say(FormattableString words) => words.ToString(CultureInfo.InvariantCulture);
}
