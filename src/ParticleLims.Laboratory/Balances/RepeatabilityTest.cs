using System.Globalization;
using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Metadata.Builders;
using ParticleLims.Analysis.Quantities;
using ParticleLims.Analysis.Statistics.Summaries;

namespace ParticleLims.Laboratory.Balances;

/// <summary>Ten weighings or more of one load, and what follows for the balance. Written once.</summary>
public sealed class RepeatabilityTest
{
    /// <summary>At least so many weighings (USP &lt;41&gt;, as quoted publicly).</summary>
    public const int Fewest = 10;

    public Guid Id { get; init; }
    public Guid BalanceId { get; init; }
    public DateTimeOffset At { get; init; }
    public required string PersonName { get; init; }

    /// <summary>The displays in whole micrograms, separated by blanks, in the order of weighing.</summary>
    public required string Readings { get; init; }

    /// <summary>The standard deviation of the displays.</summary>
    public Mass Deviation { get; init; }

    /// <summary>The smallest net mass that the balance weighs well enough.</summary>
    public Mass MinimumWeight { get; init; }

    /// <summary>The displays.</summary>
    public IReadOnlyList<Mass> Masses => [.. Readings.Split(' ').Select(one => Mass.FromMicrograms(long.Parse(one, CultureInfo.InvariantCulture)))];

    /// <summary>The standard deviation of displays, to the microgram.</summary>
    public static Mass DeviationOf(IReadOnlyList<Mass> masses)
    {
        ArgumentNullException.ThrowIfNull(masses);
        var first = masses[0];
        var summary = SampleSummary.Of([.. masses.Select(mass => (double)(mass - first).Micrograms)]);
        return Mass.FromMicrograms((long)Math.Round(summary.StandardDeviation!.Value));
    }
}

internal sealed class RepeatabilityTestTable : IEntityTypeConfiguration<RepeatabilityTest>
{
    public void Configure(EntityTypeBuilder<RepeatabilityTest> builder)
    {
        builder.ToTable("repeatability_tests").HasIndex(test => new { test.BalanceId, test.At });
        builder.Property(test => test.Readings).HasMaxLength(1_000);
        builder.Ignore(test => test.Masses);
        builder.HasOne<Balance>().WithMany().HasForeignKey(test => test.BalanceId);
    }
}
