using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Metadata.Builders;
using ParticleLims.Laboratory.Methods;
using ParticleLims.Laboratory.Record;
using ParticleLims.Laboratory.Settings;
using ParticleLims.Laboratory.Storage;

namespace ParticleLims.Laboratory.Runs;

/// <summary>A person who started or took over a run whose method asks for an authorisation, and what authorised them then. Written once.</summary>
public sealed class RunOperator
{
    /// <summary>How long somebody who has taken a run up may go on although the authorisation ends meanwhile; a withdrawn one ends at once.</summary>
    public static readonly TimeSpan GoesOn = TimeSpan.FromHours(24);

    public Guid RunId { get; init; }
    public Guid PersonId { get; init; }
    public required string PersonName { get; init; }
    public DateTimeOffset Since { get; init; }

    /// <summary>What it rested on, as shown then.</summary>
    public required string AuthorisationThen { get; init; }

    /// <summary>Whether the quality manager allowed it for this run alone: a finding for the reviewer.</summary>
    public bool BySignature { get; init; }

    /// <summary>Refuses whoever is not authorised for the run's method, where that asks for it; keeps on what it rests the first time.</summary>
    /// <exception cref="RefusedException">Says what is missing and who can give it.</exception>
    internal static async Task TakeUpAsync(DeedScope scope, Run run, MethodVersion method, CancellationToken cancellation)
    {
        if (!method.AuthorisationNeeded)
        {
            return;
        }

        var known = run.Operators.Find(one => one.PersonId == scope.PersonId);
        var today = (await SettingsKeeping.OfAsync(scope.Data, cancellation)).LocalDay(scope.Now);
        var ground = await GroundAsync(scope.Data, run, method, (scope.PersonId, scope.By.Name), (today, scope.Now), cancellation);
        if (ground.Missing is { } missing)
        {
            throw new RefusedException("not-authorised", missing);
        }

        if (known is null)
        {
            scope.Data.Add(new RunOperator { RunId = run.Id, PersonId = scope.PersonId, PersonName = scope.By.Name, Since = scope.Now, AuthorisationThen = ground.Snapshot!, BySignature = ground.BySignature });
        }
    }

    /// <summary>On what somebody may carry out a run now, or what is missing and who can help.</summary>
    internal static async Task<(string? Snapshot, bool BySignature, string? Missing)> GroundAsync(
        LaboratoryContext data, Run run, MethodVersion method, (Guid Id, string Name) person, (DateOnly Today, DateTimeOffset Now) at, CancellationToken cancellation)
    {
        var known = run.Operators.Find(one => one.PersonId == person.Id);
        var newest = await MethodAuthorising.NewestAsync(data, person.Id, method.DocumentId, cancellation);
        if (newest is not null && (newest.HoldsOn(at.Today) || (known is { BySignature: false } && newest.WithdrawnAt is null && at.Now - known.Since < GoesOn)))
        {
            return (newest.Snapshot, false, null);
        }

        return await data.Set<AuthorisationOverride>().FirstOrDefaultAsync(one => one.RunId == run.Id && one.PersonId == person.Id, cancellation) is { } allowed
            ? (allowed.Words, true, null)
            : (null, false, $"{await MethodAuthorising.MissingAsync(data, person, method.DocumentId, at.Today, cancellation)} {await MethodAuthorising.RemedyAsync(data, cancellation)}");
    }
}

internal sealed class RunOperatorTable : IEntityTypeConfiguration<RunOperator>
{
    public void Configure(EntityTypeBuilder<RunOperator> builder)
    {
        builder.ToTable("run_operators").HasKey(one => new { one.RunId, one.PersonId });
        builder.Property(one => one.PersonName).HasMaxLength(200);
    }
}
