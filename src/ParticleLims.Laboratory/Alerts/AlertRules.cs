using System.Globalization;
using ParticleLims.Laboratory.Outgoing;
using ParticleLims.Laboratory.Record;
using ParticleLims.Laboratory.Storage;

namespace ParticleLims.Laboratory.Alerts;

/// <summary>When an alert is raised.</summary>
/// <param name="TriesOfOne">So many wrong secrets of one person.</param>
/// <param name="TriesOfAll">So many of everybody together, known or not.</param>
/// <param name="WithinMinutes">Within so many minutes.</param>
/// <param name="ClockStepSeconds">The clock went on by so many seconds more or less than time did.</param>
public sealed record AlertLimits(int TriesOfOne, int TriesOfAll, int WithinMinutes, int ClockStepSeconds)
{
    /// <summary>Our own choice: five of one person are as many as are free before the wait begins.</summary>
    public static AlertLimits Usual { get; } = new(5, 10, 10, 30);

    internal void Check()
    {
        Require(TriesOfOne, 2, 100, "triesOfOne", "Wrong tries of one person");
        Require(TriesOfAll, 2, 1_000, "triesOfAll", "Wrong tries of everybody");
        Require(WithinMinutes, 1, 1_440, "withinMinutes", "Minutes");
        Require(ClockStepSeconds, 2, 3_600, "clockStepSeconds", "Seconds of the clock");
    }

    private static void Require(int value, int least, int most, string member, string what)
    {
        if (value < least || value > most)
        {
            throw new RefusedException("alert-limits", string.Create(CultureInfo.InvariantCulture, $"{what}: from {least} to {most}, not {value}."), member);
        }
    }
}

/// <summary>Who is called, and when. There is at most one row; without it the usual limits hold and nobody outside is called.</summary>
public sealed class AlertRules : IVersioned
{
    /// <summary>The only key.</summary>
    public static Guid OnlyId { get; } = new("6c696d73-0000-7000-8000-000000000003");

    public Guid Id { get; init; } = OnlyId;

    /// <summary>The security contact: mail addresses with commas between; null for nobody.</summary>
    public string? Contact { get; set; }

    /// <summary>Whether alerts are posted to the webhook too.</summary>
    public bool Post { get; set; }
    public int TriesOfOne { get; set; } = AlertLimits.Usual.TriesOfOne;
    public int TriesOfAll { get; set; } = AlertLimits.Usual.TriesOfAll;
    public int WithinMinutes { get; set; } = AlertLimits.Usual.WithinMinutes;
    public int ClockStepSeconds { get; set; } = AlertLimits.Usual.ClockStepSeconds;
    public long Version { get; set; }

    /// <summary>The limits in one.</summary>
    public AlertLimits Limits => new(TriesOfOne, TriesOfAll, WithinMinutes, ClockStepSeconds);

    /// <summary>The contact's addresses.</summary>
    public IReadOnlyList<string> Addressees => Contact is null ? [] : MailAddresses.Read(Contact, "contact");
}
