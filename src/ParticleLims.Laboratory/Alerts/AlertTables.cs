using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Metadata.Builders;
using ParticleLims.Laboratory.Storage;

namespace ParticleLims.Laboratory.Alerts;

internal sealed class AlertTables : IEntityTypeConfiguration<Alert>, IEntityTypeConfiguration<AlertRules>
{
    public void Configure(EntityTypeBuilder<Alert> builder)
    {
        builder.ToTable("alerts");
        builder.Property(alert => alert.Words).HasMaxLength(1_000);
        builder.Property(alert => alert.ClosedByName).HasMaxLength(200);
        builder.Property(alert => alert.Finding).HasMaxLength(1_000);
        builder.HasIndex(alert => alert.At);
        builder.HasIndex(alert => alert.ClosedAt);
    }

    public void Configure(EntityTypeBuilder<AlertRules> builder)
    {
        builder.ToTable("alert_rules").Property(rules => rules.Contact).HasMaxLength(1_000);
        builder.Ignore(rules => rules.Limits);
        builder.Ignore(rules => rules.Addressees);
    }
}

/// <summary>Names the tables.</summary>
public static class AlertTableNames
{
    extension(LaboratoryContext data)
    {
        /// <summary>All alerts.</summary>
        public DbSet<Alert> Alerts => data.Set<Alert>();

        /// <summary>The rules, or what holds while nobody set any.</summary>
        internal async Task<AlertRules> AlertRulesAsync(CancellationToken cancellation) => await RowById<AlertRules>.AskAsync(data, AlertRules.OnlyId, cancellation) ?? new AlertRules();
    }
}
