using System.Globalization;
using ParticleLims.Laboratory.People;
using ParticleLims.Laboratory.Record;

namespace ParticleLims.Laboratory.AccessReviews;

/// <summary>One account as the review shows it.</summary>
/// <param name="Id">The person.</param>
/// <param name="FullName">The printed name.</param>
/// <param name="SignOnName">The sign-on name.</param>
/// <param name="Roles">The roles.</param>
/// <param name="Active">Whether it can sign on.</param>
/// <param name="LastUse">The laboratory's day on which somebody last signed on with it; null for never.</param>
/// <param name="HasPin">Whether it has a PIN for shared terminals.</param>
/// <param name="SecondFactor">What it signs on with beside the password, in words: "one-time codes, 2 passkeys"; null for nothing.</param>
/// <param name="Badges">How many badges are good.</param>
/// <param name="Tokens">How many programs hold a token that is good.</param>
public sealed record AccountSeen(Guid Id, string FullName, string SignOnName, IReadOnlyList<Role> Roles, bool Active, DateOnly? LastUse, bool HasPin, string? SecondFactor, int Badges, int Tokens)
{
    /// <summary>The roles in words.</summary>
    public string RolesInWords => Roles.Count == 0 ? "none" : string.Join(", ", Roles.Order().Select(role => role.Words()));

    /// <summary>The state in words.</summary>
    public string StateInWords => Active ? "active" : "disabled";

    /// <summary>The line that is signed.</summary>
    internal string Line => string.Create(CultureInfo.InvariantCulture,
        $"{FullName} ({SignOnName}), {StateInWords}; roles: {RolesInWords}; last use: {(LastUse is { } day ? day.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture) : "never")}; PIN: {(HasPin ? "yes" : "no")}; second factor: {SecondFactor ?? "none"}; badges: {Badges}; tokens: {Tokens}");
}

/// <summary>Who may do what, as it is signed.</summary>
/// <param name="Accounts">Active accounts first, then by name.</param>
public sealed record AccessList(IReadOnlyList<AccountSeen> Accounts)
{
    /// <summary>The canonical content: a line for each account.</summary>
    public string Content => string.Join('\n', Accounts.Select(account => account.Line));

    /// <summary>SHA-256 of the content, by which a page proves that it showed this list.</summary>
    public string ContentHash => RecordChain.HashOf(Content);
}

/// <summary>What the page of reviews shows.</summary>
/// <param name="List">Who may do what now.</param>
/// <param name="Past">The reviews, newest first.</param>
/// <param name="EveryDays">The interval of the settings in days.</param>
/// <param name="DueAt">When the next one is due; null when there was none yet.</param>
/// <param name="Overdue">Whether it is, or there was none yet.</param>
public sealed record AccessBoard(AccessList List, IReadOnlyList<AccessReview> Past, int EveryDays, DateTimeOffset? DueAt, bool Overdue);
