using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Metadata.Builders;
using ParticleLims.Analysis.Quantities;
using ParticleLims.Laboratory.Documents;
using ParticleLims.Laboratory.Products;
using ParticleLims.Laboratory.Storage;

namespace ParticleLims.Laboratory.Methods;

/// <summary>How the powder meets the sieves (ISO 2591-1; the words for air jet are ours).</summary>
public enum SievingProcedure
{
    /// <summary>Air jet, a new test portion for each sieve.</summary>
    SeparatePortions,
    /// <summary>Air jet, one test portion; the residue is carried on to the next sieve.</summary>
    CarriedResidue,
    /// <summary>All sieves at once over a receiver.</summary>
    NestedStack,
}

/// <summary>How the curve is read between its points.</summary>
public enum CurveReading
{
    Linear,
    LogLinear,
    RosinRammler,
    LogNormal,
    MonotoneCubic,
}

/// <summary>A written instruction for sieving a product; what it says stands in its versions.</summary>
public sealed class Method : IControlledDocument
{
    public Guid Id { get; init; }

    /// <summary>For example <c>M-GC-45</c>.</summary>
    public required string Code { get; init; }
    public required string Title { get; init; }
    public Guid ProductId { get; init; }
    public List<MethodVersion> Versions { get; } = [];
}

/// <summary>One version of a method.</summary>
public sealed class MethodVersion : ControlledVersion
{
    public SievingProcedure Procedure { get; init; }
    public Mass PortionLeast { get; init; }
    public Mass PortionMost { get; init; }

    /// <summary>Seconds on each sieve, or of the whole stack.</summary>
    public int Seconds { get; init; }

    /// <summary>Air jet: the band of differential pressure; null for the stack.</summary>
    public Pressure? PressureLowest { get; init; }
    public Pressure? PressureHighest { get; init; }
    public int Replicates { get; init; }

    /// <summary>Percentiles in percent passing, ascending, joined by commas: <c>10,50,90</c>.</summary>
    public required string Percentiles { get; init; }
    public CurveReading Reading { get; init; }

    /// <summary>Nested stack: the least recovery in percent (common practice, no source: 98 to 99 %).</summary>
    public decimal? LeastRecoveryPercent { get; init; }

    /// <summary>Carried residue: the most that a transfer may lose, percent of the test portion.</summary>
    public decimal? MostTransferLossPercent { get; init; }

    /// <summary>The most by which replicates may differ in any passing, percentage points; null asks nothing.</summary>
    public decimal? RepeatabilityLimitPercent { get; init; }

    /// <summary>The standard uncertainty in percent, near 50 % passing, from taking the test portion; null counts as none.</summary>
    public decimal? PortionUncertaintyPercent { get; init; }

    /// <summary>When sieving has gone on long enough; null for the fixed time alone.</summary>
    public EndPointPlan? EndPoint { get; init; }

    /// <summary>Air jet: whether the fines are caught in a collector that is weighed before and after.</summary>
    public bool CollectorWeighed { get; init; }

    /// <summary>Whether each sieve's label is scanned before it is weighed, and again when a stack is built.</summary>
    public bool SievesScanned { get; init; }

    /// <summary>Whether only people authorised for the method carry out its runs.</summary>
    public bool AuthorisationNeeded { get; init; }

    /// <summary>Whether the effective aperture of each sieve's last check with a reference material takes the place of the nominal one.</summary>
    public bool EffectiveApertures { get; init; }

    /// <summary>What happens when the balance has not passed its check on the day.</summary>
    public UncheckedBalance UncheckedBalance { get; init; }

    /// <summary>What happens when a residue lies under the minimum weight of the balance.</summary>
    public SmallResidue SmallResidue { get; init; }

    /// <summary>What is done before the first sieve: conditions of the room, drying, conditioning, flow aid.</summary>
    public PreparationPlan Preparation { get; init; } = PreparationPlan.None;
    public List<MethodSieve> Sieves { get; } = [];

    /// <summary>The percentiles as numbers.</summary>
    public IReadOnlyList<decimal> PercentileList => [.. Percentiles.Split(',').Select(one => decimal.Parse(one, System.Globalization.CultureInfo.InvariantCulture))];
}

/// <summary>A sieve that a method asks for, the finest first.</summary>
public sealed class MethodSieve
{
    public Guid MethodVersionId { get; init; }

    /// <summary>1 is the finest.</summary>
    public int Position { get; init; }
    public Aperture Aperture { get; init; }
}

internal sealed class MethodTables : IEntityTypeConfiguration<Method>, IEntityTypeConfiguration<MethodVersion>, IEntityTypeConfiguration<MethodSieve>
{
    public void Configure(EntityTypeBuilder<Method> builder)
    {
        builder.ToTable("methods").HasIndex(method => method.Code).IsUnique();
        builder.Property(method => method.Code).HasMaxLength(40);
        builder.HasMany(method => method.Versions).WithOne().HasForeignKey(version => version.DocumentId);
        builder.HasOne<Product>().WithMany().HasForeignKey(method => method.ProductId);
    }

    public void Configure(EntityTypeBuilder<MethodVersion> builder)
    {
        builder.ToTable("method_versions").HasIndex(version => new { version.DocumentId, version.Number }).IsUnique();
        builder.Ignore(version => version.PercentileList);
        builder.ComplexProperty(version => version.EndPoint, Map);
        builder.ComplexProperty(version => version.Preparation, Map);
        builder.HasMany(version => version.Sieves).WithOne().HasForeignKey(sieve => sieve.MethodVersionId);
    }

    public void Configure(EntityTypeBuilder<MethodSieve> builder) => builder.ToTable("method_sieves").HasKey(sieve => new { sieve.MethodVersionId, sieve.Position });

    private static void Map(ComplexPropertyBuilder<EndPointPlan> builder)
    {
        builder.Property(plan => plan.IntervalSeconds).HasColumnName("end_point_interval_seconds");
        builder.Property(plan => plan.MostIntervals).HasColumnName("end_point_most_intervals");
        builder.Property(plan => plan.MostChangePercent).HasColumnName("end_point_most_change_percent");
        builder.Property(plan => plan.MostChange).HasColumnName("end_point_most_change");
        builder.Property(plan => plan.MostChangeOfPortionPercent).HasColumnName("end_point_most_change_of_portion_percent");
        builder.Property(plan => plan.SmallResiduePercent).HasColumnName("end_point_small_residue_percent");
        builder.Property(plan => plan.SmallResidueMostChangePercent).HasColumnName("end_point_small_residue_most_change_percent");
    }

    private static void Map(ComplexPropertyBuilder<PreparationPlan> builder)
    {
        builder.Property(plan => plan.ConditionsRead).HasColumnName("conditions_read");
        builder.Property(plan => plan.TemperatureLowest).HasColumnName("temperature_lowest");
        builder.Property(plan => plan.TemperatureHighest).HasColumnName("temperature_highest");
        builder.Property(plan => plan.HumidityLowestPercent).HasColumnName("humidity_lowest_percent");
        builder.Property(plan => plan.HumidityHighestPercent).HasColumnName("humidity_highest_percent");
        builder.Property(plan => plan.DryingTemperature).HasColumnName("drying_temperature");
        builder.Property(plan => plan.DryingMinutes).HasColumnName("drying_minutes");
        builder.Property(plan => plan.ConditioningMinutes).HasColumnName("conditioning_minutes");
        builder.Property(plan => plan.FlowAid).HasColumnName("flow_aid").HasMaxLength(100);
        builder.Property(plan => plan.FlowAidPercent).HasColumnName("flow_aid_percent");
    }
}

/// <summary>Names the tables.</summary>
public static class MethodsTables
{
    extension(LaboratoryContext data)
    {
        /// <summary>All methods.</summary>
        public DbSet<Method> Methods => data.Set<Method>();

        /// <summary>All versions of methods.</summary>
        public DbSet<MethodVersion> MethodVersions => data.Set<MethodVersion>();
    }
}
