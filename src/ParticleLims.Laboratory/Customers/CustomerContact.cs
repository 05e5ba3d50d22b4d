using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Metadata.Builders;
using ParticleLims.Laboratory.Storage;

namespace ParticleLims.Laboratory.Customers;

/// <summary>Somebody at a customer's to whom mails go. Never deleted: whoever received a certificate is told what becomes of it.</summary>
public sealed class CustomerContact : IVersioned
{
    public Guid Id { get; init; }
    public Guid CustomerId { get; init; }
    public required string Name { get; set; }

    /// <summary>The mail address.</summary>
    public required string Address { get; set; }

    /// <summary>The language of the mails, by ISO 639-1; null for that of the customer's certificates.</summary>
    public string? Language { get; set; }

    /// <summary>Whether each new certificate of the customer is mailed to it.</summary>
    public bool ReceivesCertificates { get; set; }

    /// <summary>When a mail to this address was refused for good or came back; null while the address works as far as is known.</summary>
    public DateTimeOffset? BouncedAt { get; private set; }

    /// <summary>What the other side said then.</summary>
    public string? BounceWords { get; private set; }
    public long Version { get; set; }

    /// <summary>A mail to its address came back.</summary>
    internal void Bounce(DateTimeOffset at, string words) => (BouncedAt, BounceWords) = (at, words);

    /// <summary>The address works, as somebody found out, or is another one now.</summary>
    internal void ForgetBounce() => (BouncedAt, BounceWords) = (null, null);
}

internal sealed class CustomerContactTable : IEntityTypeConfiguration<CustomerContact>
{
    public void Configure(EntityTypeBuilder<CustomerContact> builder)
    {
        builder.ToTable("customer_contacts").HasIndex(contact => new { contact.CustomerId, contact.Address }).IsUnique();
        builder.Property(contact => contact.Name).HasMaxLength(200);
        builder.Property(contact => contact.Address).HasMaxLength(320);
        builder.Property(contact => contact.Language).HasMaxLength(2);
        builder.Property(contact => contact.BounceWords).HasMaxLength(500);
        builder.HasOne<Customer>().WithMany().HasForeignKey(contact => contact.CustomerId);
    }
}

/// <summary>Names the table.</summary>
public static class CustomerContactsTable
{
    extension(LaboratoryContext data)
    {
        /// <summary>All contacts.</summary>
        public DbSet<CustomerContact> CustomerContacts => data.Set<CustomerContact>();
    }
}
