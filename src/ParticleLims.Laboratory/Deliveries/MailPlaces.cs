using System.Text.RegularExpressions;
using ParticleLims.Laboratory.Record;

namespace ParticleLims.Laboratory.Deliveries;

/// <summary>The places in the text of a mail: a name in braces, which is filled in when the mail is queued.</summary>
public static partial class MailPlaces
{
    /// <summary>How the certificate comes: attached, or where it is found.</summary>
    public const string How = "how";

    /// <summary>The names, with what stands there then.</summary>
    public static IReadOnlyList<(string Name, string Words)> All { get; } =
    [
        ("contact", "the contact's name"),
        ("customer", "the customer's name"),
        ("certificate", "the certificate's number"),
        ("revision", "its revision"),
        ("product", "code and name of the product"),
        ("lot", "the lot's number"),
        ("reference", "the customer's own reference"),
        (How, "a sentence that says how the certificate comes: attached, or where it is found"),
        ("verify", "the address of its public check"),
        ("laboratory", "name and contact of the laboratory"),
    ];

    /// <summary>The text with its places filled in. What is filled in is not looked through again.</summary>
    /// <param name="text">The text.</param>
    /// <param name="values">What stands at each place.</param>
    internal static string Fill(string text, IReadOnlyDictionary<string, string> values) => Place.Replace(text, found => values.TryGetValue(found.Groups["name"].Value, out var value) ? value : found.Value);

    /// <summary>Refuses a text in which a place has no such name, or which does not say how the certificate comes.</summary>
    internal static void Check(string text, string member, bool needsHow)
    {
        if (Place.Matches(text).Select(found => found.Groups["name"].Value).FirstOrDefault(name => All.All(known => known.Name != name)) is { } unknown)
        {
            throw new RefusedException("place-unknown", $"There is no place {{{unknown}}}. The places are {string.Join(", ", All.Select(known => $"{{{known.Name}}}"))}.", member);
        }

        if (needsHow && !text.Contains($"{{{How}}}", StringComparison.Ordinal))
        {
            throw new RefusedException("place-missing", $"Write {{{How}}} somewhere: there the mail says whether the certificate is attached or where it is found.", member);
        }
    }

    [GeneratedRegex(@"\{(?<name>[^{}\r\n]*)\}", RegexOptions.ExplicitCapture, matchTimeoutMilliseconds: 1_000)]
    private static partial Regex Place { get; }
}
