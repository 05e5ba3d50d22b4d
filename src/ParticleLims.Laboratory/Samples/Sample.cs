using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Metadata.Builders;
using ParticleLims.Analysis.Quantities;
using ParticleLims.Laboratory.Lots;
using ParticleLims.Laboratory.Methods;
using ParticleLims.Laboratory.Specifications;
using ParticleLims.Laboratory.Storage;

namespace ParticleLims.Laboratory.Samples;

/// <summary>How a sample was divided down to the test portion.</summary>
public enum SampleDivision
{
    RotaryDivider,
    Riffle,
    ConeAndQuarter,
    NotDivided,
}

/// <summary>What was taken from a lot, with how, when, where and by whom.</summary>
public sealed class Sample
{
    public Guid Id { get; init; }

    /// <summary>The label code, for example <c>S-26-00123</c>.</summary>
    public required string Code { get; init; }
    public Guid LotId { get; init; }
    public Guid MethodVersionId { get; init; }
    public Guid SpecificationVersionId { get; init; }
    public DateTimeOffset? TakenAt { get; init; }
    public required string TakenBy { get; init; }

    /// <summary>Where and how it was taken: sampling point, tool, plan.</summary>
    public required string SamplingWay { get; init; }

    /// <summary>What it looks like, and its container.</summary>
    public required string Description { get; init; }

    /// <summary>Condition on receipt: sealed, dry, damaged, …</summary>
    public required string ConditionOnReceipt { get; init; }
    public SampleDivision Division { get; init; }

    /// <summary>Increments taken or containers opened; null where nobody knows.</summary>
    public int? Increments { get; init; }

    /// <summary>The mass of the sample as it arrived; null where it was not weighed.</summary>
    public Mass? Mass { get; init; }

    /// <summary>What the sampling plan asks to be written down on arrival; null for nothing.</summary>
    public string? Recorded { get; init; }

    /// <summary>What the sample lacked against the specification's sampling plan when it was booked in, in words; null where the plan was carried out, or there is none.</summary>
    public string? SamplingLacks { get; init; }
    public DateTimeOffset ReceivedAt { get; init; }
    public Guid ReceivedById { get; init; }
    public required string ReceivedByName { get; init; }

    /// <summary>The sample in whose place it was taken, by the quality manager's permission; null where it is a first one.</summary>
    public Guid? ReplacesSampleId { get; init; }

    /// <summary>Why another sample was taken.</summary>
    public string? TakenAgainBecause { get; init; }
}

/// <summary>Divisions in words.</summary>
public static class SampleDivisionWords
{
    /// <summary>The way of dividing as people say it.</summary>
    public static string Words(this SampleDivision division) => division switch
    {
        SampleDivision.RotaryDivider => "rotary divider",
        SampleDivision.Riffle => "riffle",
        SampleDivision.ConeAndQuarter => "cone and quarter",
        SampleDivision.NotDivided => "not divided",
        _ => throw new ArgumentOutOfRangeException(nameof(division), division, "Not a way of dividing."),
    };
}

internal sealed class SampleTable : IEntityTypeConfiguration<Sample>
{
    public void Configure(EntityTypeBuilder<Sample> builder)
    {
        builder.ToTable("samples").HasIndex(sample => sample.Code).IsUnique();
        builder.Property(sample => sample.Code).HasMaxLength(20);
        builder.Property(sample => sample.Recorded).HasMaxLength(NewSample.LongestRecorded);
        builder.HasIndex(sample => sample.LotId);
        builder.HasOne<Lot>().WithMany().HasForeignKey(sample => sample.LotId);
        builder.HasOne<MethodVersion>().WithMany().HasForeignKey(sample => sample.MethodVersionId);
        builder.HasOne<SpecificationVersion>().WithMany().HasForeignKey(sample => sample.SpecificationVersionId);
    }
}

/// <summary>Names the table.</summary>
public static class SamplesTable
{
    extension(LaboratoryContext data)
    {
        /// <summary>All samples.</summary>
        public DbSet<Sample> Samples => data.Set<Sample>();

        /// <summary>All samplings that were accepted as they were.</summary>
        public DbSet<SamplingAcceptance> SamplingAcceptances => data.Set<SamplingAcceptance>();
    }
}
