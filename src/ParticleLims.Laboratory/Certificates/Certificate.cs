using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Metadata.Builders;
using ParticleLims.Laboratory.Lots;
using ParticleLims.Laboratory.Record;
using ParticleLims.Laboratory.Storage;

namespace ParticleLims.Laboratory.Certificates;

/// <summary>The state of a certificate.</summary>
public enum CertificateState
{
    Issued,
    Superseded,
    Withdrawn,

    /// <summary>Not to be relied on while something is looked into; it is reinstated, revised or withdrawn afterwards.</summary>
    Suspended,
}

/// <summary>An issued certificate; its content and its file never change.</summary>
public sealed class Certificate : IVersioned
{
    public Guid Id { get; init; }

    /// <summary>For example <c>C-26-00042</c>; never given twice.</summary>
    public required string Number { get; init; }
    public int Revision { get; init; } = 1;

    /// <summary>The first lot of which it speaks; the others stand in <see cref="FurtherSample"/>.</summary>
    public Guid LotId { get; init; }

    /// <summary>The lots of which it speaks, joined by commas.</summary>
    public required string LotNumber { get; init; }
    public Guid SampleId { get; init; }

    /// <summary>The products of which it speaks, joined by commas.</summary>
    public required string ProductCode { get; init; }

    /// <summary>Number and lots as they are searched: upper case.</summary>
    public required string SearchText { get; init; }
    public Guid? CustomerId { get; init; }
    public required string CustomerName { get; init; }
    public DateTimeOffset IssuedAt { get; init; }
    public required string IssuedByName { get; init; }

    /// <summary>The unguessable part of the check address: 160 random bits, hexadecimal.</summary>
    [Secret]
    public required string VerifyToken { get; init; }

    /// <summary>The frozen <see cref="CertificateContent"/> as JSON.</summary>
    public required string Content { get; init; }

    /// <summary>SHA-256 of <see cref="Content"/>, hexadecimal.</summary>
    public required string ContentHash { get; init; }

    /// <summary>SHA-256 of the stored file, hexadecimal.</summary>
    public required string FileHash { get; init; }
    public CertificateState State { get; private set; } = CertificateState.Issued;
    public string? StateReason { get; private set; }
    public long Version { get; set; }

    /// <summary>The certificate that took this one's place; null for none.</summary>
    public string? SupersededByNumber { get; private set; }

    /// <summary>The certificate whose place this one took; null for a first issue.</summary>
    public Guid? ReplacesId { get; init; }

    /// <summary>Whether nothing has taken its place and nobody took it back: issued, or suspended.</summary>
    public bool Stands => State is CertificateState.Issued or CertificateState.Suspended;

    /// <summary>Takes it back with a reason; the file stays and the public check says so.</summary>
    public void Withdraw(string reason)
    {
        Require(CertificateState.Issued, CertificateState.Suspended);
        (State, StateReason) = (CertificateState.Withdrawn, reason.Trim());
    }

    /// <summary>Nobody is to rely on it while something is looked into.</summary>
    public void Suspend(string reason)
    {
        Require(CertificateState.Issued);
        (State, StateReason) = (CertificateState.Suspended, reason.Trim());
    }

    /// <summary>What was looked into left it as it is.</summary>
    public void Reinstate()
    {
        Require(CertificateState.Suspended);
        (State, StateReason) = (CertificateState.Issued, null);
    }

    /// <summary>A revision takes its place.</summary>
    public void Supersede(string number, string reason)
    {
        Require(CertificateState.Issued, CertificateState.Suspended);
        (State, StateReason, SupersededByNumber) = (CertificateState.Superseded, $"Superseded by {number}: {reason.Trim()}", number);
    }

    private void Require(params CertificateState[] states)
    {
        if (!states.Contains(State))
        {
            throw new RefusedException("certificate-state", $"Certificate {Number} is {State.Words()}; this cannot be done with it.");
        }
    }
}

/// <summary>The issued bytes, for ever the same.</summary>
public sealed class CertificateFile
{
    public Guid CertificateId { get; init; }
    public required byte[] Pdf { get; init; }
}

/// <summary>States in words.</summary>
public static class CertificateStateWords
{
    /// <summary>The state as people say it.</summary>
    public static string Words(this CertificateState state) => state switch
    {
        CertificateState.Issued => "issued",
        CertificateState.Superseded => "superseded",
        CertificateState.Withdrawn => "withdrawn",
        CertificateState.Suspended => "suspended",
        _ => throw new ArgumentOutOfRangeException(nameof(state), state, "Not a state."),
    };
}

internal sealed class CertificateTables : IEntityTypeConfiguration<Certificate>, IEntityTypeConfiguration<CertificateFile>
{
    public void Configure(EntityTypeBuilder<Certificate> builder)
    {
        builder.ToTable("certificates").HasIndex(certificate => certificate.Number).IsUnique();
        builder.Property(certificate => certificate.Number).HasMaxLength(20);
        builder.Property(certificate => certificate.SupersededByNumber).HasMaxLength(20);
        builder.Ignore(certificate => certificate.Stands);
        builder.HasIndex(certificate => certificate.VerifyToken).IsUnique();
        builder.HasIndex(certificate => certificate.FileHash);
        builder.HasIndex(certificate => certificate.LotId);
        builder.HasIndex(certificate => certificate.SampleId);
        builder.HasIndex(certificate => new { certificate.CustomerId, certificate.IssuedAt });
        builder.HasOne<Lot>().WithMany().HasForeignKey(certificate => certificate.LotId);
    }

    public void Configure(EntityTypeBuilder<CertificateFile> builder)
    {
        builder.ToTable("certificate_files").HasKey(file => file.CertificateId);
        builder.HasOne<Certificate>().WithOne().HasForeignKey<CertificateFile>(file => file.CertificateId);
    }
}

/// <summary>Names the tables.</summary>
public static class CertificatesTables
{
    extension(LaboratoryContext data)
    {
        /// <summary>All certificates.</summary>
        public DbSet<Certificate> Certificates => data.Set<Certificate>();

        /// <summary>The issued files.</summary>
        public DbSet<CertificateFile> CertificateFiles => data.Set<CertificateFile>();
    }
}
