using System.Globalization;
using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Metadata.Builders;
using ParticleLims.Laboratory.Storage;

namespace ParticleLims.Laboratory.SievingUnits;

/// <summary>A check of a sieving unit, written once.</summary>
public sealed class UnitCheck
{
    public Guid Id { get; init; }
    public Guid UnitId { get; init; }
    public UnitCheckKind Kind { get; init; }
    public DateTimeOffset At { get; init; }

    /// <summary>The laboratory's local day.</summary>
    public DateOnly Day { get; init; }
    public required string PersonName { get; init; }

    /// <summary>What the unit indicated, by its setting or its own gauge: a whole number of the last decimal of <see cref="UnitCheckKinds.Figure"/>; null where there is no figure.</summary>
    public long? Indicated { get; init; }

    /// <summary>What the instrument beside it showed, counted like <see cref="Indicated"/>.</summary>
    public long? Measured { get; init; }

    /// <summary>By how much it could be off then, percent.</summary>
    public decimal? TolerancePercent { get; init; }

    /// <summary>The instrument beside it, with its number; empty where there is no figure.</summary>
    public required string Instrument { get; init; }
    public required string Words { get; init; }
    public bool Passed { get; init; }

    /// <summary>What was found, for people: "set 300.0 s, measured 301.2 s, 0.4 % off".</summary>
    public string Found
    {
        get
        {
            if (Kind.Figure() is not { } figure || Indicated is not { } indicated || Measured is not { } measured)
            {
                return Words;
            }

            var format = "0." + new string('0', figure.Decimals);
            return string.Create(
                CultureInfo.InvariantCulture,
                $"{(Kind == UnitCheckKind.PressureGauge ? "shown" : "set")} {figure.Read(indicated).ToString(format, CultureInfo.InvariantCulture)} {figure.Symbol}, measured {figure.Read(measured).ToString(format, CultureInfo.InvariantCulture)} {figure.Symbol}, {OffPercent(indicated, measured):0.0#} % off");
        }
    }

    /// <summary>By how much a figure is off what was measured beside it, percent of what was set.</summary>
    public static decimal OffPercent(long indicated, long measured) => Math.Abs(measured - indicated) * 100m / indicated;
}

internal sealed class UnitCheckTables : IEntityTypeConfiguration<UnitCheck>, IEntityTypeConfiguration<UnitCheckPlan>
{
    public void Configure(EntityTypeBuilder<UnitCheck> builder)
    {
        builder.ToTable("unit_checks").HasIndex(check => new { check.UnitId, check.Kind, check.At });
        builder.Property(check => check.Instrument).HasMaxLength(100);
        builder.Property(check => check.Words).HasMaxLength(1_000);
        builder.Ignore(check => check.Found);
        builder.HasOne<SievingUnit>().WithMany().HasForeignKey(check => check.UnitId);
    }

    public void Configure(EntityTypeBuilder<UnitCheckPlan> builder)
    {
        builder.ToTable("unit_check_plans").HasKey(plan => new { plan.UnitId, plan.Kind });
        builder.HasOne<SievingUnit>().WithMany().HasForeignKey(plan => plan.UnitId);
    }
}

/// <summary>Names the tables.</summary>
public static class UnitChecksTables
{
    extension(LaboratoryContext data)
    {
        /// <summary>All checks of sieving units.</summary>
        public DbSet<UnitCheck> UnitChecks => data.Set<UnitCheck>();

        /// <summary>The plans that a laboratory wrote itself.</summary>
        public DbSet<UnitCheckPlan> UnitCheckPlans => data.Set<UnitCheckPlan>();
    }
}
