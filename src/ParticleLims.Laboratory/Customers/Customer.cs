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
    public long Version { get; set; }
}

internal sealed class CustomerTable : IEntityTypeConfiguration<Customer>
{
    public void Configure(EntityTypeBuilder<Customer> builder)
    {
        builder.ToTable("customers").HasIndex(customer => customer.Name).IsUnique();
        builder.Property(customer => customer.Name).HasMaxLength(200);
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
