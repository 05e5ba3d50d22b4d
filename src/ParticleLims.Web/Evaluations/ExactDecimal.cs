using System.Globalization;
using System.Text;
using System.Text.Json;
using System.Text.Json.Serialization;

namespace ParticleLims.Web.Evaluations;

/// <summary>A number given as JSON number or decimal string, read digit by digit; what a decimal cannot hold exactly is refused.</summary>
internal sealed class ExactDecimal : JsonConverter<decimal>
{
    public override decimal Read(ref Utf8JsonReader reader, Type typeToConvert, JsonSerializerOptions options)
    {
        var text = reader.TokenType switch
        {
            JsonTokenType.Number => Encoding.UTF8.GetString(reader.ValueSpan),
            JsonTokenType.String => reader.GetString()!,
            _ => throw new JsonException("Give a number, or a decimal string such as \"312.3450\"."),
        };
        const NumberStyles Styles = NumberStyles.AllowLeadingSign | NumberStyles.AllowDecimalPoint | NumberStyles.AllowExponent;
        if (text.Contains(',', StringComparison.Ordinal))
        {
            throw new JsonException($"“{text}” has a comma. The decimal sign is a point.");
        }

        return text.Length <= 40 && decimal.TryParse(text, Styles, CultureInfo.InvariantCulture, out var value)
            ? value
            : throw new JsonException($"“{(text.Length > 40 ? text[..40] + "…" : text)}” is not a number that is kept exactly. Give at most 28 digits.");
    }

    public override void Write(Utf8JsonWriter writer, decimal value, JsonSerializerOptions options) => writer.WriteNumberValue(value);
}
