using ParticleLims.Laboratory.Balances;

namespace ParticleLims.Web.Readings;

/// <summary>Judges a format by the parser that will read its lines.</summary>
public sealed class FormatCheck : IReadingFormatCheck
{
    /// <inheritdoc />
    public IReadOnlyList<string> ProblemsOf(ReadingFormatCard card) => KnownFormats.Of(card).Problems();
}
