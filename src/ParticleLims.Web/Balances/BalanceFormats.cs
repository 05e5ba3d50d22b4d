using ParticleLims.Instruments.Readings;

namespace ParticleLims.Web.Balances;

/// <summary>The reading formats that a balance can be registered with.</summary>
public static class BalanceFormats
{
    /// <summary>All of them.</summary>
    public static IReadOnlyList<ReadingFormat> All { get; } = [PlainLine.Format, PlainLine.FormatWithChecksum];

    /// <summary>A format by its name; null when there is none of that name.</summary>
    public static ReadingFormat? Find(string name) => All.FirstOrDefault(format => string.Equals(format.Name, name, StringComparison.Ordinal));
}
