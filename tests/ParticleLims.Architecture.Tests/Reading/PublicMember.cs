using System.Reflection;
using System.Runtime.CompilerServices;

namespace ParticleLims.Architecture.Tests.Reading;

/// <summary>A public member as a caller sees it.</summary>
/// <param name="Id">As in the documentation file; a method without its parameters.</param>
/// <param name="IsNumber">Whether it is or gives a bare number, so that its unit must be said.</param>
internal sealed record PublicMember(string Id, bool IsNumber)
{
    private static readonly string[] BroughtAlong = ["CompareTo", "Equals", "GetHashCode", "ToString"];
    private static readonly Type[] BareNumbers = [typeof(double), typeof(double?), typeof(decimal), typeof(decimal?), typeof(float), typeof(float?)];

    /// <summary>The public members of an assembly that people wrote, types included.</summary>
    public static IReadOnlyList<PublicMember> Of(Assembly assembly) => [.. assembly.GetExportedTypes().SelectMany(Of)];

    public override string ToString() => Id;

    private static IEnumerable<PublicMember> Of(Type type)
    {
        var name = type.FullName!.Replace('+', '.');
        yield return new PublicMember("T:" + name, IsNumber: false);
        const BindingFlags Own = BindingFlags.Public | BindingFlags.Instance | BindingFlags.Static | BindingFlags.DeclaredOnly;
        foreach (var field in type.GetFields(Own).Where(field => !field.IsSpecialName))
        {
            yield return new PublicMember($"F:{name}.{field.Name}", BareNumbers.Contains(field.FieldType));
        }

        foreach (var property in type.GetProperties(Own))
        {
            yield return new PublicMember($"P:{name}.{property.Name}", BareNumbers.Contains(property.PropertyType));
        }

        foreach (var method in type.GetMethods(Own).Where(method => IsWritten(type, method)))
        {
            yield return new PublicMember($"M:{name}.{method.Name}", BareNumbers.Contains(method.ReturnType));
        }
    }

    // What Object, records and comparisons bring along needs no words.
    private static bool IsWritten(Type type, MethodInfo method) =>
        !method.IsSpecialName && !BroughtAlong.Contains(method.Name) && !method.IsDefined(typeof(CompilerGeneratedAttribute)) && method.GetBaseDefinition().DeclaringType == type && type.BaseType != typeof(MulticastDelegate);
}
