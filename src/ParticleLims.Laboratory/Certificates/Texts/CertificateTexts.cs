using System.Collections.Concurrent;
using System.Globalization;
using System.Text.Json;

namespace ParticleLims.Laboratory.Certificates.Texts;

/// <summary>The words of a certificate in one language, with its decimal sign. The texts lie beside this file, a file for each language.</summary>
public sealed class CertificateTexts
{
    /// <summary>The languages, by ISO 639-1.</summary>
    public static readonly IReadOnlyList<string> Languages = ["en", "de", "fr", "es"];

    private static readonly ConcurrentDictionary<string, CertificateTexts> Known = new(StringComparer.Ordinal);
    private readonly Dictionary<string, string> texts;
    private readonly CultureInfo numbers;

    private CertificateTexts(string language, Dictionary<string, string> texts)
    {
        (Language, this.texts) = (language, texts);
        numbers = (CultureInfo)CultureInfo.InvariantCulture.Clone();
        numbers.NumberFormat.NumberDecimalSeparator = DecimalSign.ToString();
    }

    /// <summary>The language, by ISO 639-1.</summary>
    public string Language { get; }

    /// <summary>A point in English, a comma in the others.</summary>
    public char DecimalSign => Language == "en" ? '.' : ',';

    /// <summary>The keys of all texts.</summary>
    public IReadOnlyCollection<string> Keys => texts.Keys;

    /// <summary>The texts of a language.</summary>
    /// <exception cref="ArgumentOutOfRangeException">There are no texts in this language.</exception>
    public static CertificateTexts In(string language) =>
        Languages.Contains(language) ? Known.GetOrAdd(language, Read) : throw new ArgumentOutOfRangeException(nameof(language), language, "Certificates are written in English (en), German (de), French (fr) or Spanish (es).");

    /// <summary>A text as it stands.</summary>
    public string this[string key] => texts.TryGetValue(key, out var text) ? text : throw new ArgumentOutOfRangeException(nameof(key), key, "There is no such text.");

    /// <summary>A text with its places filled in; numbers get the decimal sign of the language.</summary>
    public string With(string key, params object?[] values) => string.Format(numbers, this[key], values);

    /// <summary>The text of a word that is known; any other word stays as it is.</summary>
    public string OrSame(string group, string word) => texts.GetValueOrDefault($"{group}.{word}", word);

    /// <summary>A number as printed, with the decimal sign of the language.</summary>
    public string Number(string printed)
    {
        ArgumentNullException.ThrowIfNull(printed);
        return DecimalSign == '.' ? printed : printed.Replace('.', DecimalSign);
    }

    /// <summary>A number with its decimals.</summary>
    public string Number(IFormattable number, string format)
    {
        ArgumentNullException.ThrowIfNull(number);
        return number.ToString(format, numbers);
    }

    private static CertificateTexts Read(string language)
    {
        using var stream = typeof(CertificateTexts).Assembly.GetManifestResourceStream(typeof(CertificateTexts), language + ".json")
            ?? throw new InvalidOperationException($"The texts of the language {language} are missing from the program.");
        return new CertificateTexts(language, JsonSerializer.Deserialize<Dictionary<string, string>>(stream)!);
    }
}
