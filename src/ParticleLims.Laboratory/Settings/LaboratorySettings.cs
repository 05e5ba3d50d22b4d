using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Metadata.Builders;
using ParticleLims.Laboratory.Record;
using ParticleLims.Laboratory.Storage;

namespace ParticleLims.Laboratory.Settings;

/// <summary>The laboratory itself: one row.</summary>
public sealed class LaboratorySettings : IVersioned
{
    /// <summary>The key of the only row.</summary>
    public static Guid OnlyId { get; } = new("6c696d73-0000-7000-8000-000000000001");

    /// <summary>Twice a year: common practice, no source.</summary>
    public const int UsualAccessReviewDays = 182;

    /// <summary>The longest interval between two reviews of access, in days: three years.</summary>
    public const int LongestAccessReviewDays = 1_096;

    public Guid Id { get; init; } = OnlyId;
    public required string Name { get; set; }

    /// <summary>The postal address, one line a line.</summary>
    public required string Address { get; set; }

    /// <summary>Telephone or mail as printed.</summary>
    public required string Contact { get; set; }

    /// <summary>IANA name of the time zone in which times are shown and printed.</summary>
    public required string TimeZone { get; set; }

    /// <summary>The address under which the public check of certificates is reached, without a slash at the end; QR codes carry it.</summary>
    public required string PublicAddress { get; set; }

    /// <summary>Whether one person may review and release their own work; every record made so says it.</summary>
    public bool OnePersonLaboratory { get; set; }

    /// <summary>Whether a mass may be keyed by hand when a balance does not answer; each one is a finding.</summary>
    public bool KeyingAllowed { get; set; }

    /// <summary>Whether weighings are taken at enrolled terminals only.</summary>
    public bool WeighOnlyAtEnrolledTerminals { get; set; }

    /// <summary>After how many minutes without a touch an enrolled terminal locks.</summary>
    public int LockAfterMinutes { get; set; } = TerminalRules.UsualLockAfterMinutes;

    /// <summary>Within how many working days an investigation should be closed.</summary>
    public int InvestigationWorkingDays { get; set; } = UsualInvestigationWorkingDays;

    /// <summary>Twenty working days: common practice, from memory.</summary>
    public const int UsualInvestigationWorkingDays = 20;

    /// <summary>After how many days accounts and roles are reviewed again.</summary>
    public int AccessReviewEveryDays { get; set; } = UsualAccessReviewDays;

    /// <summary>True in the demonstration: a banner on each page and a line on each certificate.</summary>
    public bool Demonstration { get; init; }
    public long Version { get; set; }

    /// <summary>The laboratory's own day at an instant.</summary>
    public DateOnly LocalDay(DateTimeOffset instant) => DateOnly.FromDateTime(TimeZoneInfo.ConvertTime(instant, TimeZoneInfo.FindSystemTimeZoneById(TimeZone)).DateTime);

    /// <summary>The instant at which a day begins in the laboratory.</summary>
    public DateTimeOffset StartOf(DateOnly day) => TimeZoneInfo.FindSystemTimeZoneById(TimeZone).StartOf(day);
}

/// <summary>A one-time link with which an empty laboratory is set up.</summary>
public sealed class SetUpLink
{
    public Guid Id { get; init; }

    [Secret]
    public required string TokenHash { get; init; }
    public DateTimeOffset ExpiresAt { get; init; }
    public DateTimeOffset? UsedAt { get; set; }
}

/// <summary>A running number, one series a kind and year.</summary>
internal sealed class NumberSeries : IOutsideRecord
{
    public required string Name { get; init; }
    public long Last { get; set; }
}

internal sealed class SettingsTables : IEntityTypeConfiguration<LaboratorySettings>, IEntityTypeConfiguration<SetUpLink>, IEntityTypeConfiguration<NumberSeries>
{
    public void Configure(EntityTypeBuilder<LaboratorySettings> builder) => builder.ToTable("laboratory_settings").Property(settings => settings.Name).HasMaxLength(200);

    public void Configure(EntityTypeBuilder<SetUpLink> builder) => builder.ToTable("set_up_links").Property(link => link.TokenHash).HasMaxLength(64);

    public void Configure(EntityTypeBuilder<NumberSeries> builder) => builder.ToTable("number_series").HasKey(series => series.Name);
}
