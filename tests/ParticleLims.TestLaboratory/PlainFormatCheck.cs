using ParticleLims.Laboratory.Balances;

namespace ParticleLims.TestLaboratory;

/// <summary>Stands in for the parser: a format that names no value is refused, and so is one without a unit.</summary>
public sealed class PlainFormatCheck : IReadingFormatCheck
{
    /// <inheritdoc />
    public IReadOnlyList<string> ProblemsOf(ReadingFormatCard card)
    {
        ArgumentNullException.ThrowIfNull(card);
        return [.. ((string[])["value", "unit"]).Where(part => !card.Pattern.Contains($"(?<{part}>", StringComparison.Ordinal)).Select(part => $"The pattern does not name the group '{part}'.")];
    }
}
