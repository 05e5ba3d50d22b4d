using System.Globalization;
using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Metadata.Builders;
using ParticleLims.Laboratory.People;
using ParticleLims.Laboratory.Storage;

namespace ParticleLims.Laboratory.Methods;

/// <summary>
/// That a person may carry out runs by a method until a day: who found it so, and on what evidence. It is never deleted; renewing writes a
/// new one, and only the newest of a person and a method counts.
/// </summary>
public sealed class MethodAuthorisation : IVersioned
{
    public Guid Id { get; init; }
    public Guid PersonId { get; init; }

    /// <summary>The printed name at that time.</summary>
    public required string PersonName { get; init; }
    public Guid MethodId { get; init; }
    public required string MethodCode { get; init; }
    public required string GivenByName { get; init; }
    public DateTimeOffset GivenAt { get; init; }

    /// <summary>On what it rests: training, runs beside an experienced person, a comparison.</summary>
    public required string Evidence { get; init; }

    /// <summary>The last local day on which it holds.</summary>
    public DateOnly ValidUntil { get; init; }
    public DateTimeOffset? WithdrawnAt { get; private set; }
    public string? WithdrawnByName { get; private set; }
    public string? WithdrawnReason { get; private set; }
    public long Version { get; set; }

    /// <summary>Whether it holds on a local day.</summary>
    public bool HoldsOn(DateOnly day) => WithdrawnAt is null && day <= ValidUntil;

    /// <summary>What a run keeps of it.</summary>
    public string Snapshot => string.Create(CultureInfo.InvariantCulture, $"authorised for {MethodCode} by {GivenByName} until {ValidUntil:yyyy-MM-dd}: {Evidence}");

    internal void Withdraw(string by, DateTimeOffset at, string reason) => (WithdrawnByName, WithdrawnAt, WithdrawnReason) = (by, at, reason);
}

internal sealed class MethodAuthorisationTable : IEntityTypeConfiguration<MethodAuthorisation>
{
    public void Configure(EntityTypeBuilder<MethodAuthorisation> builder)
    {
        builder.ToTable("method_authorisations").HasIndex(one => new { one.PersonId, one.MethodId, one.GivenAt });
        builder.HasIndex(one => one.MethodId);
        builder.Property(one => one.PersonName).HasMaxLength(200);
        builder.Property(one => one.MethodCode).HasMaxLength(40);
        builder.Property(one => one.Evidence).HasMaxLength(MethodAuthorising.LongestEvidence);
        builder.Ignore(one => one.Snapshot);
        builder.HasOne<Person>().WithMany().HasForeignKey(one => one.PersonId);
        builder.HasOne<Method>().WithMany().HasForeignKey(one => one.MethodId);
    }
}
