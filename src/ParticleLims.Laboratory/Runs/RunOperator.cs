using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Metadata.Builders;

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
}

internal sealed class RunOperatorTable : IEntityTypeConfiguration<RunOperator>
{
    public void Configure(EntityTypeBuilder<RunOperator> builder)
    {
        builder.ToTable("run_operators").HasKey(one => new { one.RunId, one.PersonId });
        builder.Property(one => one.PersonName).HasMaxLength(200);
    }
}
