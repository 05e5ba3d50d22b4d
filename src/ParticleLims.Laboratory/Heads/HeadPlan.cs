using System.Globalization;
using ParticleLims.Laboratory.Outgoing;
using ParticleLims.Laboratory.Record;
using ParticleLims.Laboratory.Storage;

namespace ParticleLims.Laboratory.Heads;

/// <summary>Where heads go, and how often.</summary>
/// <param name="Folder">A folder on another machine, as this one sees it; null for none.</param>
/// <param name="MailTo">Mail addresses with commas between; null for none.</param>
/// <param name="Post">Whether to the webhook.</param>
/// <param name="EveryHours">How often.</param>
public sealed record HeadWishes(string? Folder, string? MailTo, bool Post, int EveryHours)
{
    /// <summary>The longest time between two heads, in hours: four weeks.</summary>
    public const int Longest = 672;

    /// <summary>Whether a head would go anywhere.</summary>
    public bool Anywhere => Folder is not null || MailTo is not null || Post;

    internal void Check()
    {
        if (EveryHours is < 1 or > Longest)
        {
            throw new RefusedException("head-hours", string.Create(CultureInfo.InvariantCulture, $"A head leaves every 1 to {Longest} hours, not every {EveryHours}."), "everyHours");
        }

        if (Folder is not null && (!Path.IsPathFullyQualified(Folder) || Folder.Any(char.IsControl)))
        {
            throw new RefusedException("head-folder", "The folder is written whole, from the root on.", "folder");
        }

        if (MailTo is not null)
        {
            MailAddresses.Read(MailTo, "mailTo");
        }
    }
}

/// <summary>The plan. There is at most one row; without it no head leaves.</summary>
public sealed class HeadPlan : IVersioned
{
    /// <summary>Daily: common practice, no source.</summary>
    public const int UsualHours = 24;

    /// <summary>The only key.</summary>
    public static Guid OnlyId { get; } = new("6c696d73-0000-7000-8000-000000000004");

    public Guid Id { get; init; } = OnlyId;
    public string? Folder { get; set; }
    public string? MailTo { get; set; }
    public bool Post { get; set; }
    public int EveryHours { get; set; } = UsualHours;
    public long Version { get; set; }

    /// <summary>The plan in one.</summary>
    public HeadWishes Wishes => new(Folder, MailTo, Post, EveryHours);
}
