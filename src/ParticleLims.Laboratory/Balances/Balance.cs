using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Metadata.Builders;
using ParticleLims.Analysis.Quantities;
using ParticleLims.Laboratory.Equipment;
using ParticleLims.Laboratory.Storage;

namespace ParticleLims.Laboratory.Balances;

/// <summary>A balance whose readings come in by one of four ways.</summary>
public sealed class Balance : IEquipment, IRunsSoftware, IVersioned
{
    public Guid Id { get; init; }
    public required string Serial { get; init; }
    public required string Name { get; set; }
    public required string Place { get; set; }

    /// <summary>The smallest step of its display.</summary>
    public Mass Readability { get; init; }
    public Mass Capacity { get; init; }

    /// <summary>Standard deviation of repeated weighings, from its calibration.</summary>
    public Mass Repeatability { get; set; }

    /// <summary>By which way its readings come in.</summary>
    public WayIn WayIn { get; set; }

    /// <summary>On the network: where its lines come from.</summary>
    public required string Host { get; set; }
    public int Port { get; set; }

    /// <summary>At a port of the server: the port's name.</summary>
    public string Device { get; set; } = string.Empty;

    /// <summary>At a port of the server or the terminal: how the line is set.</summary>
    public int BaudRate { get; set; } = 9_600;
    public int DataBits { get; set; } = 8;
    public LineParity Parity { get; set; }
    public int StopBits { get; set; } = 1;

    /// <summary>The name of the reading format.</summary>
    public required string ReadingFormat { get; set; }

    /// <summary>The weight of the daily check and how far the display may be from it.</summary>
    public Mass CheckWeight { get; set; }
    public Mass CheckTolerance { get; set; }

    /// <summary>After how many days its repeatability is tested again; null where no day falls due.</summary>
    public int? RepeatEveryDays { get; set; }

    /// <summary>Since when that is asked; a balance without an earlier test counts from here.</summary>
    public DateTimeOffset? RepeatFrom { get; set; }
    public string? Maker { get; set; }
    public string? Model { get; set; }
    public string? Software { get; set; }
    public EquipmentState State { get; set; }
    public string? StateReason { get; set; }
    public DateOnly? InspectionDueOn { get; set; }
    public DateTimeOffset? InspectedAt { get; set; }
    public long Version { get; set; }

    /// <inheritdoc />
    public string Label => $"balance {Name} ({Serial})";

    /// <summary>Where its lines come from.</summary>
    public BalanceWay Way => new(WayIn, Host, Port, Device, BaudRate, DataBits, Parity, StopBits);

    /// <summary>Has its repeatability tested after so many days, or on no day; what was asked already counts from where it did.</summary>
    internal void RepeatEvery(int? days, DateTimeOffset now)
    {
        RepeatabilityDue.Require(days);
        (RepeatEveryDays, RepeatFrom) = (days, days is null ? null : RepeatFrom ?? now);
    }

    /// <summary>Has its lines come from there.</summary>
    internal void ComeBy(BalanceWay way)
    {
        way.Check();
        (WayIn, Host, Port, Device) = (way.WayIn, way.Host.Trim(), way.Port, way.Device.Trim());
        (BaudRate, DataBits, Parity, StopBits) = (way.BaudRate, way.DataBits, way.Parity, way.StopBits);
    }
}

/// <summary>A daily check with a check weight, written once.</summary>
public sealed class BalanceCheck
{
    public Guid Id { get; init; }
    public Guid BalanceId { get; init; }
    public DateTimeOffset At { get; init; }

    /// <summary>The laboratory's local day.</summary>
    public DateOnly Day { get; init; }
    public required string PersonName { get; init; }
    public Mass Nominal { get; init; }
    public Mass Shown { get; init; }
    public bool Passed { get; init; }
    public required string RawLine { get; init; }

    /// <summary>By which way the display came in.</summary>
    public WayIn WayIn { get; init; }

    /// <summary>Whether the balance was seen to stand level and to have warmed up; null where nobody was asked.</summary>
    public bool? LevelSeen { get; init; }
    public bool? WarmedUp { get; init; }

    /// <summary>The check weight's serial number; null where none of the register was named.</summary>
    public string? WeightSerial { get; init; }
}

internal sealed class BalanceTables : IEntityTypeConfiguration<Balance>, IEntityTypeConfiguration<BalanceCheck>
{
    public void Configure(EntityTypeBuilder<Balance> builder)
    {
        builder.ToTable("balances").HasIndex(balance => balance.Serial).IsUnique();
        builder.Property(balance => balance.Serial).HasMaxLength(60);
        builder.Property(balance => balance.Maker).HasMaxLength(TypePlate.Longest);
        builder.Property(balance => balance.Model).HasMaxLength(TypePlate.Longest);
        builder.Property(balance => balance.Software).HasMaxLength(TypePlate.Longest);
        builder.Property(balance => balance.Device).HasMaxLength(120);
        builder.Ignore(balance => balance.Label).Ignore(balance => balance.Way);
    }

    public void Configure(EntityTypeBuilder<BalanceCheck> builder)
    {
        builder.ToTable("balance_checks").HasIndex(check => new { check.BalanceId, check.Day });
        builder.Property(check => check.WeightSerial).HasMaxLength(60);
        builder.HasOne<Balance>().WithMany().HasForeignKey(check => check.BalanceId);
    }
}

/// <summary>Names the tables.</summary>
public static class BalancesTables
{
    extension(LaboratoryContext data)
    {
        /// <summary>All balances.</summary>
        public DbSet<Balance> Balances => data.Set<Balance>();

        /// <summary>All daily checks.</summary>
        public DbSet<BalanceCheck> BalanceChecks => data.Set<BalanceCheck>();
    }
}
