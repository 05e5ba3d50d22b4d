using Microsoft.AspNetCore.Identity;
using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Metadata.Builders;
using ParticleLims.Laboratory.Record;
using ParticleLims.Laboratory.Storage;

namespace ParticleLims.Laboratory.People;

/// <summary>A person with an account. Accounts are disabled, never deleted, and a sign-on name is never given again.</summary>
public sealed class Person : IdentityUser<Guid>, IVersioned
{
    /// <summary>The printed name.</summary>
    public required string FullName { get; set; }

    /// <summary>False after the person has left.</summary>
    public bool Active { get; set; } = true;

    /// <summary>For a customer's contact: which customer.</summary>
    public Guid? CustomerId { get; set; }

    /// <summary>The hashed PIN for shared terminals.</summary>
    [Secret]
    public string? PinHash { get; set; }

    public DateTimeOffset CreatedAt { get; init; }
    public List<PersonRole> Roles { get; } = [];
    public long Version { get; set; }
}

/// <summary>A role held by a person.</summary>
public sealed class PersonRole : IRemovable
{
    public Guid PersonId { get; init; }
    public Role Role { get; init; }
    public DateTimeOffset GrantedAt { get; init; }
}

internal sealed class PersonTable : IEntityTypeConfiguration<Person>, IEntityTypeConfiguration<PersonRole>
{
    public void Configure(EntityTypeBuilder<Person> builder)
    {
        builder.ToTable("people");
        builder.Property(person => person.FullName).HasMaxLength(200);
        builder.HasMany(person => person.Roles).WithOne().HasForeignKey(role => role.PersonId);
    }

    public void Configure(EntityTypeBuilder<PersonRole> builder) => builder.ToTable("person_roles").HasKey(role => new { role.PersonId, role.Role });
}
