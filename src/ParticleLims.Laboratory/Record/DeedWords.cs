using System.Reflection;

namespace ParticleLims.Laboratory.Record;

/// <summary>Deeds in words for the audit trail, read from where the deeds are declared so that none can be missing.</summary>
public static class DeedWords
{
    private const BindingFlags Declared = BindingFlags.Static | BindingFlags.Public | BindingFlags.NonPublic | BindingFlags.DeclaredOnly;
    private static readonly Lazy<IReadOnlyDictionary<string, string>> Known = new(Read);

    /// <summary>All deeds by their codes.</summary>
    public static IReadOnlyDictionary<string, string> All => Known.Value;

    /// <summary>The deed in words: "Lot booked in"; an unknown code stays itself.</summary>
    public static string Of(string code) => All.GetValueOrDefault(code, code);

    private static Dictionary<string, string> Read()
    {
        var words = new Dictionary<string, string>(StringComparer.Ordinal);
        var types = typeof(DeedKind).Assembly.GetTypes();
        foreach (var type in types.Where(type => type.GetFields(Declared).Any(field => field.FieldType == typeof(DeedKind))))
        {
            foreach (var field in Closed(type, types).GetFields(Declared).Where(field => field.FieldType == typeof(DeedKind)))
            {
                var kind = (DeedKind)field.GetValue(null)!;
                words[kind.Code] = kind.Words;
            }
        }

        return words;
    }

    // A generic service has its fields only once closed; they are the same for each argument.
    private static Type Closed(Type type, Type[] types) => type.ContainsGenericParameters
        ? type.MakeGenericType([.. type.GetGenericArguments().Select(parameter => types.First(candidate =>
            candidate is { IsClass: true, IsAbstract: false, ContainsGenericParameters: false } && Array.TrueForAll(parameter.GetGenericParameterConstraints(), needed => needed.IsAssignableFrom(candidate))))])
        : type;
}
