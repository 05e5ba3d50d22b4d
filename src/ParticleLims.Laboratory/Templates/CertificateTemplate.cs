using System.ComponentModel.DataAnnotations.Schema;
using System.Text.Json.Serialization;
using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Metadata.Builders;
using ParticleLims.Laboratory.Documents;
using ParticleLims.Laboratory.Storage;

namespace ParticleLims.Laboratory.Templates;

/// <summary>How certificates look, for all customers or for those who chose it; it stands in its versions.</summary>
public sealed class CertificateTemplate : IControlledDocument
{
    /// <summary>The key of the standard template, the same in every laboratory.</summary>
    public static Guid StandardId { get; } = new("6c696d73-0000-7000-8000-000000000002");

    public Guid Id { get; init; }

    /// <summary>For example <c>CT-COATINGS</c>.</summary>
    public required string Code { get; init; }
    public required string Title { get; init; }
    public List<CertificateTemplateVersion> Versions { get; } = [];

    /// <summary>Whether it holds for every customer who chose no other.</summary>
    [NotMapped]
    [JsonIgnore]
    public bool IsStandard => Id == StandardId;
}

/// <summary>One version of a template.</summary>
public sealed class CertificateTemplateVersion : ControlledVersion
{
    /// <summary>The <see cref="PaperPlan"/> in its canonical form.</summary>
    public required string Written { get; init; }

    /// <summary>What it says.</summary>
    [NotMapped]
    [JsonIgnore]
    public PaperPlan Plan => PaperPlan.Read(Written);
}

/// <summary>A picture for mastheads, written once.</summary>
public sealed class CertificateLogo
{
    /// <summary>SHA-256 of the bytes, hexadecimal.</summary>
    public required string Sha256 { get; init; }

    /// <summary>What it is, found from its content: <c>image/png</c> or <c>image/jpeg</c>.</summary>
    public required string MediaType { get; init; }

    /// <summary>In pixels.</summary>
    public int Width { get; init; }

    /// <summary>In pixels.</summary>
    public int Height { get; init; }
    public required byte[] Bytes { get; init; }
    public DateTimeOffset AddedAt { get; init; }
    public required string AddedByName { get; init; }
}

internal sealed class CertificateTemplateTables : IEntityTypeConfiguration<CertificateTemplate>, IEntityTypeConfiguration<CertificateTemplateVersion>, IEntityTypeConfiguration<CertificateLogo>
{
    public void Configure(EntityTypeBuilder<CertificateTemplate> builder)
    {
        builder.ToTable("certificate_templates").HasIndex(template => template.Code).IsUnique();
        builder.Property(template => template.Code).HasMaxLength(40);
        builder.Property(template => template.Title).HasMaxLength(200);
        builder.HasMany(template => template.Versions).WithOne().HasForeignKey(version => version.DocumentId);
    }

    public void Configure(EntityTypeBuilder<CertificateTemplateVersion> builder) =>
        builder.ToTable("certificate_template_versions").HasIndex(version => new { version.DocumentId, version.Number }).IsUnique();

    public void Configure(EntityTypeBuilder<CertificateLogo> builder)
    {
        builder.ToTable("certificate_logos").HasKey(logo => logo.Sha256);
        builder.Property(logo => logo.Sha256).HasMaxLength(64);
        builder.Property(logo => logo.MediaType).HasMaxLength(20);
        builder.Property(logo => logo.AddedByName).HasMaxLength(200);
    }
}

/// <summary>Names the tables.</summary>
public static class CertificateTemplatesTables
{
    extension(LaboratoryContext data)
    {
        /// <summary>All templates that were written here; the standard one is among them from its second version on.</summary>
        public DbSet<CertificateTemplate> CertificateTemplates => data.Set<CertificateTemplate>();

        /// <summary>All versions that were written here.</summary>
        public DbSet<CertificateTemplateVersion> CertificateTemplateVersions => data.Set<CertificateTemplateVersion>();

        /// <summary>All logos.</summary>
        public DbSet<CertificateLogo> CertificateLogos => data.Set<CertificateLogo>();
    }
}
