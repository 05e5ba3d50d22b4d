using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Metadata.Builders;
using ParticleLims.Laboratory.Record;

namespace ParticleLims.Laboratory.Runs;

/// <summary>The quality manager's signature that one run may use a piece of equipment although it is not fit for use. Written once, and printed on the certificate.</summary>
public sealed class FitnessOverride
{
    internal const string Meaning = "allowed for one run";

    public Guid Id { get; init; }
    public Guid RunId { get; init; }
    public required string RunNumber { get; init; }
    public Guid EquipmentId { get; init; }
    public required string EquipmentLabel { get; init; }

    /// <summary>What was wrong, as the refusal said it.</summary>
    public required string Unfit { get; init; }
    public required string Reason { get; init; }
    public required string PersonName { get; init; }
    public DateTimeOffset At { get; init; }
    public Guid SignatureId { get; init; }

    /// <summary>The sentence for the page of the item.</summary>
    public string Words => $"Run {RunNumber} used the {EquipmentLabel} by permission of {PersonName}. {Unfit} Reason: {Reason}";

    /// <summary>What is signed.</summary>
    internal static string ContentOf(Run run, string label, string unfit, string reason) => $"Run {run.Label}; {label}. {unfit} Reason: {reason}";
}

internal sealed class FitnessOverrideTable : IEntityTypeConfiguration<FitnessOverride>
{
    public void Configure(EntityTypeBuilder<FitnessOverride> builder)
    {
        builder.ToTable("fitness_overrides").HasIndex(one => one.RunId);
        builder.HasIndex(one => one.EquipmentId);
        builder.Property(one => one.RunNumber).HasMaxLength(20);
        builder.Ignore(one => one.Words);
        builder.HasOne<Run>().WithMany().HasForeignKey(one => one.RunId);
        builder.HasOne<Signature>().WithMany().HasForeignKey(one => one.SignatureId);
    }
}
