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
    public DateTimeOffset? TakenAt { get; private set; }
    public string TakenBy { get; private set; } = string.Empty;

    /// <summary>Where and how it was taken: sampling point, tool, plan.</summary>
    public string SamplingWay { get; private set; } = string.Empty;

    /// <summary>What it looks like, and its container.</summary>
    public string Description { get; private set; } = string.Empty;

    /// <summary>Condition on receipt: sealed, dry, damaged, …</summary>
    public string ConditionOnReceipt { get; private set; } = string.Empty;
    public SampleDivision Division { get; private set; }

    /// <summary>Increments taken or containers opened; null where nobody knows.</summary>
    public int? Increments { get; private set; }

    /// <summary>The mass of the sample as it arrived; null where it was not weighed.</summary>
    public Mass? Mass { get; private set; }

    /// <summary>What the sampling plan asks to be written down on arrival; null for nothing.</summary>
    public string? Recorded { get; private set; }

    /// <summary>What was written down when it arrived.</summary>
    public required SampleParticulars Particulars
    {
        get => new(TakenAt, TakenBy, SamplingWay, Description, ConditionOnReceipt, Division, Increments, Mass, Recorded);
        set
        {
            ArgumentNullException.ThrowIfNull(value);
            (TakenAt, TakenBy, SamplingWay, Description, ConditionOnReceipt) = (value.TakenAt, value.TakenBy, value.SamplingWay, value.Description, value.ConditionOnReceipt);
            (Division, Increments, Mass, Recorded) = (value.Division, value.Increments, value.Mass, value.Recorded);
        }
    }

    /// <summary>What the sample lacks against the specification's sampling plan, in words; null where the plan was carried out, or there is none.</summary>
    public string? SamplingLacks { get; internal set; }
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
        builder.Ignore(sample => sample.Particulars);
        builder.Property(sample => sample.Recorded).HasMaxLength(SampleParticulars.LongestRecorded);
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
