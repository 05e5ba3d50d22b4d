using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Metadata.Builders;

namespace ParticleLims.Laboratory.Equipment;

/// <summary>What a file about a piece of equipment is.</summary>
public enum EquipmentDocumentKind
{
    ComplianceDocument,
    InspectionCertificate,
    CalibrationCertificate,
    Photograph,
    Other,
}

/// <summary>A file about a piece of equipment, written once; its bytes lie beside it.</summary>
public sealed class EquipmentDocument
{
    public Guid Id { get; init; }
    public Guid EquipmentId { get; init; }
    public EquipmentDocumentKind Kind { get; init; }

    /// <summary>For people: the document's number, or what the picture shows.</summary>
    public required string Title { get; init; }

    /// <summary>What the content is, found from its first bytes.</summary>
    public required string MediaType { get; init; }

    /// <summary>The name under which it is downloaded; made by the program.</summary>
    public required string FileName { get; init; }

    /// <summary>The length in bytes.</summary>
    public int Length { get; init; }

    /// <summary>SHA-256 of the bytes, hexadecimal.</summary>
    public required string Sha256 { get; init; }
    public DateTimeOffset AddedAt { get; init; }
    public required string AddedByName { get; init; }
}

/// <summary>The bytes of a document, for ever the same.</summary>
public sealed class EquipmentFile
{
    public Guid DocumentId { get; init; }
    public required byte[] Bytes { get; init; }
}

/// <summary>Kinds in words.</summary>
public static class EquipmentDocumentWords
{
    /// <summary>The kind as people say it.</summary>
    public static string Words(this EquipmentDocumentKind kind) => kind switch
    {
        EquipmentDocumentKind.ComplianceDocument => "compliance document",
        EquipmentDocumentKind.InspectionCertificate => "inspection certificate",
        EquipmentDocumentKind.CalibrationCertificate => "calibration certificate",
        EquipmentDocumentKind.Photograph => "photograph",
        EquipmentDocumentKind.Other => "other document",
        _ => throw new ArgumentOutOfRangeException(nameof(kind), kind, "Not a kind."),
    };
}

internal sealed class EquipmentDocumentTables : IEntityTypeConfiguration<EquipmentDocument>, IEntityTypeConfiguration<EquipmentFile>
{
    public void Configure(EntityTypeBuilder<EquipmentDocument> builder)
    {
        builder.ToTable("equipment_documents").HasIndex(document => new { document.EquipmentId, document.AddedAt });
        builder.Property(document => document.Title).HasMaxLength(200);
        builder.Property(document => document.MediaType).HasMaxLength(60);
        builder.Property(document => document.FileName).HasMaxLength(80);
        builder.Property(document => document.Sha256).HasMaxLength(64);
    }

    public void Configure(EntityTypeBuilder<EquipmentFile> builder)
    {
        builder.ToTable("equipment_files").HasKey(file => file.DocumentId);
        builder.HasOne<EquipmentDocument>().WithOne().HasForeignKey<EquipmentFile>(file => file.DocumentId);
    }
}
