using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Metadata.Builders;
using ParticleLims.Laboratory.Certificates;
using ParticleLims.Laboratory.Customers;
using ParticleLims.Laboratory.Storage;

namespace ParticleLims.Laboratory.Deliveries;

internal sealed class DeliveryTables : IEntityTypeConfiguration<CertificateDelivery>, IEntityTypeConfiguration<MailText>
{
    public void Configure(EntityTypeBuilder<CertificateDelivery> builder)
    {
        builder.ToTable("certificate_deliveries").HasIndex(delivery => new { delivery.CertificateId, delivery.ContactId, delivery.QueuedAt });
        builder.HasIndex(delivery => new { delivery.CustomerId, delivery.QueuedAt });
        builder.HasIndex(delivery => delivery.MessageId);
        builder.HasIndex(delivery => delivery.SettledAt);
        builder.Property(delivery => delivery.CertificateNumber).HasMaxLength(20);
        builder.Property(delivery => delivery.ContactName).HasMaxLength(200);
        builder.Property(delivery => delivery.Address).HasMaxLength(320);
        builder.Property(delivery => delivery.Language).HasMaxLength(2);
        builder.Property(delivery => delivery.NotQueued).HasMaxLength(500);
        builder.HasOne<Certificate>().WithMany().HasForeignKey(delivery => delivery.CertificateId);
        builder.HasOne<CustomerContact>().WithMany().HasForeignKey(delivery => delivery.ContactId);
    }

    public void Configure(EntityTypeBuilder<MailText> builder)
    {
        builder.ToTable("mail_texts").HasIndex(text => new { text.CustomerId, text.Language }).IsUnique();
        builder.Property(text => text.Language).HasMaxLength(2);
        builder.Property(text => text.Subject).HasMaxLength(MailText.LongestSubject);
        builder.Property(text => text.Text).HasMaxLength(MailText.LongestText);
        builder.HasOne<Customer>().WithMany().HasForeignKey(text => text.CustomerId);
    }
}

/// <summary>Names the tables.</summary>
public static class DeliveryTableNames
{
    extension(LaboratoryContext data)
    {
        /// <summary>All mails about certificates.</summary>
        public DbSet<CertificateDelivery> CertificateDeliveries => data.Set<CertificateDelivery>();

        /// <summary>The customers' own texts of mails.</summary>
        public DbSet<MailText> MailTexts => data.Set<MailText>();
    }
}
