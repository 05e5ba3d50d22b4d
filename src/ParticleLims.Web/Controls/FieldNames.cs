using ParticleLims.Laboratory.Record;

namespace ParticleLims.Web.Controls;

/// <summary>How fields are named, and which refusal belongs beside which.</summary>
public static class FieldNames
{
    /// <summary>A stable id from a label: "Made on" gives <c>made-on</c>.</summary>
    public static string Id(string label)
    {
        ArgumentNullException.ThrowIfNull(label);
        var letters = label.Select(letter => char.IsAsciiLetterOrDigit(letter) ? char.ToLowerInvariant(letter) : '-').ToArray();
        return string.Join('-', new string(letters).Split('-', StringSplitOptions.RemoveEmptyEntries));
    }

    /// <summary>The words of a refusal when it is about this input; else null.</summary>
    public static string? About(RefusedException? refusal, string? member) =>
        refusal is not null && member is not null && string.Equals(refusal.Member, member, StringComparison.Ordinal) ? refusal.Message : null;
}
