using System.Collections.Concurrent;
using System.Globalization;
using System.Reflection;

namespace ParticleLims.Laboratory.Record;

/// <summary>How a recorded value reads to a person; what the record keeps stays as it is.</summary>
/// <param name="Moment">Says an instant in the laboratory's time zone, with its offset.</param>
/// <param name="Names">What the things are called whose keys stand in values.</param>
public sealed record RecordReader(Func<DateTimeOffset, string> Moment, IReadOnlyDictionary<Guid, string> Names);

/// <summary>
/// Turns names and values of the record into words. The record writes them as programs compare them (instants in UTC, days by month first, states by their names in the code, keys);
/// what a value is, is read from the thing that it belongs to.
/// </summary>
internal static class RecordedWords
{
    private const BindingFlags Static = BindingFlags.Static | BindingFlags.Public;
    private static readonly Lazy<ILookup<string, Type>> Things = new(() => typeof(RecordedWords).Assembly.GetTypes().Where(type => type is { IsClass: true, IsNested: false }).ToLookup(type => type.Name, StringComparer.Ordinal));
    private static readonly Lazy<IReadOnlyDictionary<Type, MethodInfo>> EnumWords = new(ReadEnumWords);
    private static readonly ConcurrentDictionary<(string Thing, string Value), Type> Kinds = new();

    // Names that the code may shorten and a reader should not have to guess.
    private static readonly Dictionary<string, string> Known = new(StringComparer.Ordinal)
    {
        ["At"] = "When",
        ["ReviewEntry"] = "Review",
        ["PointAnswer"] = "Point of the laboratory phase",
        ["RunOperator"] = "Person at the run",
        ["SieveLook"] = "Look at a sieve",
        ["OneTimeCodeKey"] = "Key of one-time codes",
        ["WrongSecrets"] = "Wrong passwords and codes",
        ["MethodVersion.Seconds"] = "Sieving time",
        ["MethodVersion.Reading"] = "Reading between apertures",
        ["Run.Findings"] = "Number of findings",
        ["Run.BalanceThen"] = "Balance as it was then",
        ["Run.SievingUnitThen"] = "Sieving unit as it was then",
        ["RunSieve.FitnessThen"] = "Sieve as it was then",
        ["RunOperator.AuthorisationThen"] = "Authorisation as it was then",
        ["Weighing.Round"] = "Further interval",
        ["SievingInterval.Round"] = "Further interval",
        ["Limit.Percent"] = "Percentile of the distribution",
        ["RepeatabilityTest.Readings"] = "Readings in µg",
        ["ReferenceCheck.Sievings"] = "Sievings in µg",
        ["Certificate.Content"] = "Frozen content",
        ["Signature.Content"] = "Signed content",
        ["Signature.ContentHash"] = "Hash of the signed content",
        ["Activation.First"] = "The account's first password",
        ["Person.AccessFailedCount"] = "Wrong tries",
    };

    // The unit at the end of a name goes behind the value.
    private static readonly (string End, string Unit)[] Units =
    [
        ("GramsPerCubicCentimetre", "g/cm³"), ("Percent", "%"), ("Milliseconds", "ms"), ("Seconds", "s"), ("Minutes", "min"), ("Hours", "h"), ("WorkingDays", "working days"), ("Days", "days"),
        ("Millimetres", "mm"), ("Kilograms", "kg"),
    ];

    /// <summary>What a thing is called.</summary>
    public static string Thing(string thing) => Known.GetValueOrDefault(thing) ?? Split(thing);

    /// <summary>What is told apart by the key of a thing that has no name of its own: the role of a grant, the place of a sieve; null where it is one that only programs read.</summary>
    public static string? Which(string key)
    {
        var parts = key.Split('/');
        return parts.Length == 1 ? null : string.Join(' ', parts.Where(part => !Guid.TryParse(part, out _)).Select(part => Split(part).ToLowerInvariant())) is { Length: > 0 } words ? words : null;
    }

    /// <summary>What a value of a thing is called.</summary>
    public static string Name(string thing, string value)
    {
        if (Known.TryGetValue($"{thing}.{value}", out var known) || Known.TryGetValue(value, out known))
        {
            return known;
        }

        var shorter = UnitOf(thing, value) is { } unit && value.Length > unit.End.Length ? value[..^unit.End.Length] : IsKey(thing, value) && value.Length > 2 ? value[..^2] : value;
        return Split(shorter);
    }

    /// <summary>A value of a thing.</summary>
    public static string Text(string thing, string value, string recorded, RecordReader reader)
    {
        var type = KindOf(thing, value);
        return type switch
        {
            _ when type == typeof(DateTimeOffset) && DateTimeOffset.TryParse(recorded, CultureInfo.InvariantCulture, DateTimeStyles.AssumeUniversal, out var instant) => reader.Moment(instant),
            _ when type == typeof(DateOnly) && DateOnly.TryParse(recorded, CultureInfo.InvariantCulture, out var day) => day.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture),
            _ when type == typeof(bool) && bool.TryParse(recorded, out var yes) => yes ? "yes" : "no",
            _ when type == typeof(Guid) && Guid.TryParse(recorded, out var id) => reader.Names.GetValueOrDefault(id, $"key {recorded}"),
            { IsEnum: true } => string.Join(", ", recorded.Split(", ").Select(one => EnumText(type, one))),
            _ when value.EndsWith("Kind", StringComparison.Ordinal) && recorded.All(char.IsAsciiLetter) => Split(recorded).ToLowerInvariant(),
            _ when UnitOf(thing, value) is { } unit => $"{recorded} {unit.Unit}",
            _ => recorded,
        };
    }

    /// <summary>Parts a name of the program into words: <c>StateReason</c> becomes "State reason", <c>EndPoint.MostIntervals</c> "End point most intervals".</summary>
    public static string Split(string name)
    {
        var words = new System.Text.StringBuilder(name.Length + 4);
        foreach (var letter in name.Where(letter => letter != '.'))
        {
            var starts = char.IsUpper(letter) && words.Length > 0;
            words.Append(starts ? " " : string.Empty).Append(starts ? char.ToLowerInvariant(letter) : letter);
        }

        return words.ToString();
    }

    private static bool IsKey(string thing, string value) => value.EndsWith("Id", StringComparison.Ordinal) && KindOf(thing, value) == typeof(Guid);

    // A text that ends like a unit is a text; a unit stands behind numbers only.
    private static (string End, string Unit)? UnitOf(string thing, string value) =>
        KindOf(thing, value) is { } type && (type == typeof(int) || type == typeof(long) || type == typeof(decimal) || type == typeof(double)) && Array.FindIndex(Units, unit => value.EndsWith(unit.End, StringComparison.Ordinal)) is >= 0 and var index
            ? Units[index]
            : null;

    private static string EnumText(Type type, string recorded) =>
        Enum.TryParse(type, recorded, out var one) && Enum.IsDefined(type, one) && EnumWords.Value.TryGetValue(type, out var words) ? (string)words.Invoke(null, [one])! : Split(recorded).ToLowerInvariant();

    // Things of earlier releases, and values that went away, are told as they were written.
    private static Type KindOf(string thing, string value) => Kinds.GetOrAdd((thing, value), static asked =>
        Things.Value[asked.Thing].Select(type => PropertyOf(type, asked.Value)).FirstOrDefault(type => type is not null) ?? typeof(string));

    private static Type? PropertyOf(Type owner, string path)
    {
        Type? type = owner;
        foreach (var part in path.Split('.'))
        {
            type = type?.GetProperty(part, BindingFlags.Instance | BindingFlags.Public | BindingFlags.NonPublic)?.PropertyType;
            type = type is null ? null : Nullable.GetUnderlyingType(type) ?? type;
        }

        return type;
    }

    private static Dictionary<Type, MethodInfo> ReadEnumWords() => typeof(RecordedWords).Assembly.GetTypes()
        .SelectMany(type => type.GetMethods(Static))
        .Where(method => method.Name == "Words" && method.ReturnType == typeof(string) && method.GetParameters() is [{ ParameterType.IsEnum: true }])
        .ToDictionary(method => method.GetParameters()[0].ParameterType);
}
