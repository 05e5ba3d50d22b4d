using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Metadata.Builders;
using ParticleLims.Laboratory.Storage;

namespace ParticleLims.Laboratory.Outgoing;

internal sealed class OutgoingTables :
    IEntityTypeConfiguration<OutgoingSettings>, IEntityTypeConfiguration<OutgoingMessage>, IEntityTypeConfiguration<OutgoingAttachment>, IEntityTypeConfiguration<OutgoingAttempt>
{
    /// <summary>The most letters of a try's outcome.</summary>
    public const int MostOutcome = 500;

    public void Configure(EntityTypeBuilder<OutgoingSettings> builder)
    {
        builder.ToTable("outgoing_settings");
        builder.Property(settings => settings.MailHost).HasMaxLength(255);
        builder.Property(settings => settings.MailUser).HasMaxLength(320);
        builder.Property(settings => settings.MailFrom).HasMaxLength(320);
        builder.Property(settings => settings.WebhookAddress).HasMaxLength(1_000);
        builder.Property(settings => settings.Posted).HasColumnName("posted").HasMaxLength(500);
        builder.Ignore(settings => settings.PostedKinds);
    }

    public void Configure(EntityTypeBuilder<OutgoingMessage> builder)
    {
        builder.ToTable("outgoing_messages");
        builder.Property(message => message.Kind).HasMaxLength(60);
        builder.Property(message => message.Addressee).HasMaxLength(1_000);
        builder.Property(message => message.Subject).HasMaxLength(200);
        builder.Property(message => message.Text).HasMaxLength(8_000);
        builder.Property(message => message.SubjectKind).HasMaxLength(60);
        builder.Property(message => message.Facts).HasMaxLength(4_000);
        builder.HasIndex(message => message.NextTryAt);
        builder.HasIndex(message => message.SubjectId);
        builder.HasMany(message => message.Attachments).WithOne().HasForeignKey(attachment => attachment.MessageId);
        builder.HasMany(message => message.Attempts).WithOne().HasForeignKey(attempt => attempt.MessageId);
    }

    public void Configure(EntityTypeBuilder<OutgoingAttachment> builder)
    {
        builder.ToTable("outgoing_attachments").HasKey(attachment => new { attachment.MessageId, attachment.Position });
        builder.Property(attachment => attachment.FileName).HasMaxLength(200);
        builder.Property(attachment => attachment.MediaType).HasMaxLength(100);
        builder.Property(attachment => attachment.SourceKind).HasMaxLength(60);
    }

    public void Configure(EntityTypeBuilder<OutgoingAttempt> builder) =>
        builder.ToTable("outgoing_attempts").Property(attempt => attempt.Outcome).HasMaxLength(MostOutcome);
}

/// <summary>Names the tables.</summary>
public static class OutgoingTableNames
{
    extension(LaboratoryContext data)
    {
        /// <summary>All messages.</summary>
        public DbSet<OutgoingMessage> OutgoingMessages => data.Set<OutgoingMessage>();
    }
}
