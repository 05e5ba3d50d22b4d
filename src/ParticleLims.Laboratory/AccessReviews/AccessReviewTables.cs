using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Metadata.Builders;
using ParticleLims.Laboratory.Record;
using ParticleLims.Laboratory.Storage;

namespace ParticleLims.Laboratory.AccessReviews;

internal sealed class AccessReviewTable : IEntityTypeConfiguration<AccessReview>
{
    public void Configure(EntityTypeBuilder<AccessReview> builder)
    {
        builder.ToTable("access_reviews").Property(review => review.PersonName).HasMaxLength(200);
        builder.Property(review => review.Finding).HasMaxLength(2_000);
        builder.HasOne<Signature>().WithMany().HasForeignKey(review => review.SignatureId);
        builder.HasIndex(review => review.At);
    }
}

/// <summary>Names the table.</summary>
public static class AccessReviewTableNames
{
    extension(LaboratoryContext data)
    {
        /// <summary>All reviews.</summary>
        public DbSet<AccessReview> AccessReviews => data.Set<AccessReview>();
    }
}
