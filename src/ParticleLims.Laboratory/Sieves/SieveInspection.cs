using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Metadata.Builders;
using ParticleLims.Laboratory.Equipment;

namespace ParticleLims.Laboratory.Sieves;

/// <summary>A look at a sieve by the guided list, written once.</summary>
public sealed class SieveInspection
{
    public Guid Id { get; init; }
    public Guid SieveId { get; init; }
    public DateTimeOffset At { get; init; }
    public Guid PersonId { get; init; }
    public required string PersonName { get; init; }

    /// <summary>What was found; none where the sieve is as it should be.</summary>
    public SieveFaults Faults { get; init; }

    /// <summary>In the inspector's words.</summary>
    public required string Words { get; init; }

    /// <summary>What its empty mass had said before; null where it said nothing.</summary>
    public string? SignalThen { get; init; }

    /// <summary>Whether its empty mass is watched anew from here.</summary>
    public bool TareBegunAnew { get; init; }

    /// <summary>The photograph; null where none was taken.</summary>
    public Guid? PhotographId { get; init; }

    /// <summary>Whether nothing was found.</summary>
    public bool Passed => Faults == SieveFaults.None;
}

/// <summary>By which way a sieve was cleaned.</summary>
public enum CleaningWay
{
    SoftBrushFromBelow,
    UltrasonicBath,
    SoapAndWater,
    RinsedWithSolvent,
}

/// <summary>A cleaning beyond the brushing after each run, written once.</summary>
public sealed class SieveCleaning
{
    public Guid Id { get; init; }
    public Guid SieveId { get; init; }
    public DateTimeOffset At { get; init; }
    public required string PersonName { get; init; }
    public CleaningWay Way { get; init; }
    public required string Words { get; init; }
}

/// <summary>Ways of cleaning in words.</summary>
public static class CleaningWays
{
    /// <summary>The way as people say it.</summary>
    public static string Words(this CleaningWay way) => way switch
    {
        CleaningWay.SoftBrushFromBelow => "soft brush, from below",
        CleaningWay.UltrasonicBath => "ultrasonic bath",
        CleaningWay.SoapAndWater => "soap and water",
        CleaningWay.RinsedWithSolvent => "rinsed with a solvent",
        _ => throw new ArgumentOutOfRangeException(nameof(way), way, "Not a way."),
    };
}

internal sealed class SieveCareTables : IEntityTypeConfiguration<SieveInspection>, IEntityTypeConfiguration<SieveCleaning>
{
    public void Configure(EntityTypeBuilder<SieveInspection> builder)
    {
        builder.ToTable("sieve_inspections").HasIndex(one => new { one.SieveId, one.At });
        builder.Property(one => one.Faults).HasMaxLength(120);
        builder.Property(one => one.SignalThen).HasMaxLength(400);
        builder.Property(one => one.Words).HasMaxLength(1_000);
        builder.Ignore(one => one.Passed);
        builder.HasOne<TestSieve>().WithMany().HasForeignKey(one => one.SieveId);
        builder.HasOne<EquipmentDocument>().WithMany().HasForeignKey(one => one.PhotographId);
    }

    public void Configure(EntityTypeBuilder<SieveCleaning> builder)
    {
        builder.ToTable("sieve_cleanings").HasIndex(one => new { one.SieveId, one.At });
        builder.Property(one => one.Words).HasMaxLength(1_000);
        builder.HasOne<TestSieve>().WithMany().HasForeignKey(one => one.SieveId);
    }
}
