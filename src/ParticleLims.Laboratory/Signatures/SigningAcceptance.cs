using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Metadata.Builders;
using ParticleLims.Laboratory.People;

namespace ParticleLims.Laboratory.Signatures;

/// <summary>That a person accepted a version of the signing policy. Written once.</summary>
public sealed class SigningAcceptance
{
    public Guid Id { get; init; }
    public Guid PersonId { get; init; }

    /// <summary>The policy's version.</summary>
    public required string PolicyNumber { get; init; }

    /// <summary>SHA-256 of the words that were accepted, hexadecimal.</summary>
    public required string TextHash { get; init; }
    public DateTimeOffset At { get; init; }
    public required string Terminal { get; init; }
}

/// <summary>The laboratory's own words in the signing policy. Written once; the newest counts, empty words take the addition out.</summary>
public sealed class SigningPolicyAddition
{
    /// <summary>1, 2, 3, …</summary>
    public int Number { get; init; }
    public required string Words { get; init; }
    public DateTimeOffset At { get; init; }
    public required string PersonName { get; init; }
}

internal sealed class SigningTables : IEntityTypeConfiguration<SigningAcceptance>, IEntityTypeConfiguration<SigningPolicyAddition>
{
    public void Configure(EntityTypeBuilder<SigningAcceptance> builder)
    {
        builder.ToTable("signing_acceptances").HasIndex(one => new { one.PersonId, one.PolicyNumber });
        builder.Property(one => one.PolicyNumber).HasMaxLength(20);
        builder.Property(one => one.TextHash).HasMaxLength(64);
        builder.HasOne<Person>().WithMany().HasForeignKey(one => one.PersonId);
    }

    public void Configure(EntityTypeBuilder<SigningPolicyAddition> builder)
    {
        builder.ToTable("signing_policy_additions").HasKey(one => one.Number);
        builder.Property(one => one.Number).ValueGeneratedNever();
        builder.Property(one => one.Words).HasMaxLength(SigningPolicies.LongestAddition);
    }
}
