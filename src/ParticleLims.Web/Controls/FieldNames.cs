using System.Runtime.CompilerServices;
using ParticleLims.Laboratory.Record;

namespace ParticleLims.Web.Controls;

/// <summary>How fields are named, and which refusal belongs beside which.</summary>
public static class FieldNames
{
    // Which refusals a field has taken up: each is said once, and forgotten with the refusal itself.
    private static readonly ConditionalWeakTable<RefusedException, object> AtFields = new();

    /// <summary>A stable id from a label: "Made on" gives <c>made-on</c>.</summary>
    public static string Id(string label)
    {
        ArgumentNullException.ThrowIfNull(label);
        var letters = label.Select(letter => char.IsAsciiLetterOrDigit(letter) ? char.ToLowerInvariant(letter) : '-').ToArray();
        return string.Join('-', new string(letters).Split('-', StringSplitOptions.RemoveEmptyEntries));
    }

    /// <summary>The words of a refusal when it is about this input, which then shows them; else null.</summary>
    public static string? About(RefusedException? refusal, string? member)
    {
        if (refusal is null || member is null || !string.Equals(refusal.Member, member, StringComparison.Ordinal))
        {
            return null;
        }

        AtFields.AddOrUpdate(refusal, AtFields);
        return refusal.Message;
    }

    /// <summary>Whether a field shows this refusal, so that it need not stand above the page too.</summary>
    public static bool StandsAtField(RefusedException refusal) => AtFields.TryGetValue(refusal, out _);
}
