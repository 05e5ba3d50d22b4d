using System.Text.RegularExpressions;
using ParticleLims.Laboratory.Record;

namespace ParticleLims.Laboratory.Terminals;

/// <summary>A terminal as the administrator describes it.</summary>
/// <param name="Name">What the record calls it.</param>
/// <param name="Place">Where it stands.</param>
/// <param name="HasScanner">Whether a scanner is at hand: then the sign-on page waits for a badge.</param>
public sealed partial record TerminalCard(string Name, string Place, bool HasScanner)
{
    // What the program itself writes where there is no terminal, and the marks of browsers that are not enrolled.
    private static readonly string[] Taken = ["server", "api", "unknown", "page"];

    [GeneratedRegex("^T-[0-9A-F]+$", RegexOptions.IgnoreCase, matchTimeoutMilliseconds: 1000)]
    private static partial Regex Mark { get; }

    /// <summary>Refuses a card that the record could not carry.</summary>
    /// <exception cref="RefusedException">Says what is missing.</exception>
    public void Check()
    {
        if (Name.Trim().Length is < 2 or > 40 || string.IsNullOrWhiteSpace(Place) || Place.Trim().Length > 100)
        {
            throw new RefusedException("terminal-incomplete", "A terminal has a name of 2 to 40 characters and a place, such as “Bench 1” in the “Sieving room”.", "name");
        }

        if (Mark.IsMatch(Name.Trim()) || Taken.Contains(Name.Trim(), StringComparer.OrdinalIgnoreCase))
        {
            throw new RefusedException("terminal-name-taken", $"The record uses “{Name.Trim()}” for something else. Choose another name.", "name");
        }
    }
}
