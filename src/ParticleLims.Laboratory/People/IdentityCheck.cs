using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Metadata.Builders;
using ParticleLims.Laboratory.Record;

namespace ParticleLims.Laboratory.People;

/// <summary>How somebody made sure who a person is, as it is written down.</summary>
/// <param name="ByName">Who looked; not always whoever writes it down.</param>
/// <param name="How">What was looked at: a passport in person, a staff record known for years. No numbers of documents.</param>
/// <param name="On">The local day.</param>
public sealed record IdentitySeen(string ByName, string How, DateOnly On)
{
    /// <summary>The most letters of each.</summary>
    public const int Longest = 200;

    /// <summary>Refuses what says nothing.</summary>
    /// <exception cref="RefusedException">A name or the way is missing, or the day is yet to come.</exception>
    public void Check(DateTimeOffset now)
    {
        if ((ByName?.Trim().Length ?? 0) is < 3 or > Longest || (How?.Trim().Length ?? 0) is < 5 or > Longest || On > DateOnly.FromDateTime(now.UtcDateTime.AddDays(1)))
        {
            throw new RefusedException("identity-check", "Say who made sure who this person is, how (at least five letters), and on which day, not one to come.", "identity");
        }
    }
}

/// <summary>That the identity of a person was verified. Written once; a role that signs is given only after it.</summary>
public sealed class IdentityCheck
{
    public Guid Id { get; init; }
    public Guid PersonId { get; init; }

    /// <summary>Who looked.</summary>
    public required string ByName { get; init; }
    public required string How { get; init; }

    /// <summary>The local day on which it was done.</summary>
    public DateOnly SeenOn { get; init; }
    public DateTimeOffset WrittenAt { get; init; }
    public required string WrittenByName { get; init; }

    internal static IdentityCheck Of(DeedScope scope, Guid personId, IdentitySeen seen)
    {
        seen.Check(scope.Now);
        return new IdentityCheck { Id = scope.NewId(), PersonId = personId, ByName = seen.ByName.Trim(), How = seen.How.Trim(), SeenOn = seen.On, WrittenAt = scope.Now, WrittenByName = scope.By.Name };
    }
}

internal sealed class IdentityCheckTable : IEntityTypeConfiguration<IdentityCheck>
{
    public void Configure(EntityTypeBuilder<IdentityCheck> builder)
    {
        builder.ToTable("identity_checks").HasIndex(one => one.PersonId);
        builder.Property(one => one.ByName).HasMaxLength(IdentitySeen.Longest);
        builder.Property(one => one.How).HasMaxLength(IdentitySeen.Longest);
        builder.HasOne<Person>().WithMany().HasForeignKey(one => one.PersonId);
    }
}
