using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Metadata.Builders;
using ParticleLims.Laboratory.Outgoing;
using ParticleLims.Laboratory.Storage;

namespace ParticleLims.Laboratory.Heads;

internal sealed class HeadTables : IEntityTypeConfiguration<HeadPlan>, IEntityTypeConfiguration<HeadLeaving>
{
    public void Configure(EntityTypeBuilder<HeadPlan> builder)
    {
        builder.ToTable("head_plans").Property(plan => plan.Folder).HasMaxLength(1_000);
        builder.Property(plan => plan.MailTo).HasMaxLength(1_000);
        builder.Ignore(plan => plan.Wishes);
    }

    public void Configure(EntityTypeBuilder<HeadLeaving> builder)
    {
        builder.ToTable("head_leavings").HasIndex(leaving => leaving.LeftAt);
        builder.Property(leaving => leaving.Hash).HasMaxLength(64);
        builder.Property(leaving => leaving.Text).HasMaxLength(2_000);
        builder.Property(leaving => leaving.Places).HasMaxLength(2_500);
        builder.Property(leaving => leaving.Fault).HasMaxLength(500);
    }
}

/// <summary>Names the tables.</summary>
public static class HeadTableNames
{
    extension(LaboratoryContext data)
    {
        /// <summary>All heads that left.</summary>
        public DbSet<HeadLeaving> HeadLeavings => data.Set<HeadLeaving>();

        /// <summary>The plan, or what holds while nobody made one.</summary>
        internal async Task<HeadPlan> HeadPlanAsync(CancellationToken cancellation) => await RowById<HeadPlan>.AskAsync(data, HeadPlan.OnlyId, cancellation) ?? new HeadPlan();
    }
}

/// <summary>The file of a head, for the mail that carries it.</summary>
internal sealed class HeadFiles : IAttachmentSource
{
    /// <summary>The kind.</summary>
    public const string Head = "head";

    /// <inheritdoc />
    public string Kind => Head;

    /// <inheritdoc />
    public async Task<byte[]?> ReadAsync(LaboratoryContext data, Guid id, CancellationToken cancellation) =>
        await data.HeadLeavings.Where(leaving => leaving.Id == id).Select(leaving => leaving.Text).FirstOrDefaultAsync(cancellation) is { } text ? System.Text.Encoding.UTF8.GetBytes(text) : null;
}
