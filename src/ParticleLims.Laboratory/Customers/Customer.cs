using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Metadata.Builders;
using ParticleLims.Laboratory.Storage;

namespace ParticleLims.Laboratory.Customers;

/// <summary>Who buys.</summary>
public sealed class Customer : IVersioned
{
    public Guid Id { get; init; }
    public required string Name { get; set; }

    /// <summary>Postal address, one line a line.</summary>
    public required string Address { get; set; }
    public required string Contact { get; set; }

    /// <summary>How it wants its certificates.</summary>
    public CertificateWishes Certificates { get; set; } = CertificateWishes.Usual;
    public long Version { get; set; }
}

internal sealed class CustomerTable : IEntityTypeConfiguration<Customer>
{
    public void Configure(EntityTypeBuilder<Customer> builder)
    {
        builder.ToTable("customers").HasIndex(customer => customer.Name).IsUnique();
        builder.Property(customer => customer.Name).HasMaxLength(200);
        builder.ComplexProperty(customer => customer.Certificates, wishes =>
        {
            wishes.Property(one => one.Language).HasColumnName("certificate_language").HasMaxLength(2).HasDefaultValue("en");
            wishes.Property(one => one.Paper).HasColumnName("certificate_paper").HasMaxLength(10).HasDefaultValue("A4");
            wishes.Property(one => one.RosinRammlerNet).HasColumnName("certificate_net");
            wishes.Property(one => one.Weighings).HasColumnName("certificate_weighings");
            wishes.Property(one => one.LinkOnly).HasColumnName("certificate_link_only");
            wishes.Property(one => one.TwinByMail).HasColumnName("certificate_twin_by_mail");
            wishes.Property(one => one.Template).HasColumnName("certificate_template");
        });
    }
}

/// <summary>Names the table.</summary>
public static class CustomersTable
{
    extension(LaboratoryContext data)
    {
        /// <summary>All customers.</summary>
        public DbSet<Customer> Customers => data.Set<Customer>();
    }
}
