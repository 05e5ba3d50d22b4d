using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Metadata.Builders;
using ParticleLims.Laboratory.Runs;
using ParticleLims.Laboratory.Storage;

namespace ParticleLims.Laboratory.Review;

/// <summary>What the reviewer said.</summary>
public enum ReviewOutcome
{
    Accepted,
    Returned,
    Invalidated,
    /// <summary>A cause was found; the quality manager's signature is awaited.</summary>
    InvalidationProposed,
    /// <summary>The quality manager did not agree.</summary>
    InvalidationDeclined,
}

/// <summary>One review of a run, written once.</summary>
public sealed class ReviewEntry
{
    public Guid Id { get; init; }
    public Guid RunId { get; init; }
    public DateTimeOffset At { get; init; }
    public Guid ReviewerId { get; init; }
    public required string ReviewerName { get; init; }
    public ReviewOutcome Outcome { get; init; }
    public string? Reason { get; init; }
    public Guid? SignatureId { get; init; }
}

internal sealed class ReviewTable : IEntityTypeConfiguration<ReviewEntry>
{
    public void Configure(EntityTypeBuilder<ReviewEntry> builder)
    {
        builder.ToTable("reviews").HasIndex(entry => entry.RunId);
        builder.HasOne<Run>().WithMany().HasForeignKey(entry => entry.RunId);
    }
}

/// <summary>Names the table.</summary>
public static class ReviewsTable
{
    /// <summary>How the codes of all deeds of a review begin.</summary>
    internal const string DeedFamily = "review.";

    extension(LaboratoryContext data)
    {
        /// <summary>All reviews.</summary>
        public DbSet<ReviewEntry> Reviews => data.Set<ReviewEntry>();
    }
}
