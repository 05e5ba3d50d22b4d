using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Metadata.Builders;
using ParticleLims.Laboratory.Record;

namespace ParticleLims.Laboratory.Runs;

/// <summary>The quality manager's signature that a person may carry out one run without being authorised for its method. Written once; the reviewer reads it as a finding.</summary>
public sealed class AuthorisationOverride
{
    public Guid Id { get; init; }
    public Guid RunId { get; init; }
    public required string RunNumber { get; init; }

    /// <summary>Who is allowed.</summary>
    public Guid PersonId { get; init; }
    public required string PersonName { get; init; }

    /// <summary>What is missing, as the refusal said it.</summary>
    public required string Missing { get; init; }
    public required string Reason { get; init; }
    public required string GivenByName { get; init; }
    public DateTimeOffset At { get; init; }
    public Guid SignatureId { get; init; }

    /// <summary>The sentence for the reviewer.</summary>
    public string Words => WordsOf(PersonName, RunNumber, GivenByName, Missing, Reason);

    /// <summary>The sentence, which is also what is signed.</summary>
    internal static string WordsOf(string person, string run, string by, string missing, string reason) => $"{person} was allowed to carry out run {run} by permission of {by}. {missing} Reason: {reason}";
}

internal sealed class AuthorisationOverrideTable : IEntityTypeConfiguration<AuthorisationOverride>
{
    public void Configure(EntityTypeBuilder<AuthorisationOverride> builder)
    {
        builder.ToTable("authorisation_overrides").HasIndex(one => one.RunId);
        builder.Property(one => one.RunNumber).HasMaxLength(20);
        builder.Property(one => one.PersonName).HasMaxLength(200);
        builder.Ignore(one => one.Words);
        builder.HasOne<Run>().WithMany().HasForeignKey(one => one.RunId);
        builder.HasOne<Signature>().WithMany().HasForeignKey(one => one.SignatureId);
    }
}
