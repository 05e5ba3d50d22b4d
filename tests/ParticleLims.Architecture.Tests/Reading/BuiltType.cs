namespace ParticleLims.Architecture.Tests.Reading;

/// <summary>
/// A type as it was built, with all that stands inside it (nested types, lambdas, state machines).
/// </summary>
/// <param name="Name">With its namespace.</param>
/// <param name="Interfaces">What it implements itself, with type arguments.</param>
/// <param name="SignatureTypes">The types in the signatures of its own constructors and methods.</param>
/// <param name="Uses">Every type and every member ("Type.Member") that occurs in signatures, attributes, fields and method bodies.</param>
/// <param name="StaticFields">Its static fields, but for constants and what the compiler made.</param>
internal sealed record BuiltType(
    string Name, IReadOnlyList<string> Interfaces, IReadOnlySet<string> SignatureTypes, IReadOnlySet<string> Uses, IReadOnlyList<StaticField> StaticFields)
{
    /// <summary>The uses that are one of the given namespaces, types or members, or stand within one.</summary>
    public IEnumerable<string> UsesOf(params IEnumerable<string> what) =>
        what.SelectMany(one => Uses.Where(use => use == one || use.StartsWith(one + ".", StringComparison.Ordinal))).Distinct().Order(StringComparer.Ordinal);

    /// <summary>The first word of the namespace below the given one; null where the type stands elsewhere or right in it.</summary>
    public static string? FolderOf(string typeName, string root)
    {
        if (!typeName.StartsWith(root + ".", StringComparison.Ordinal))
        {
            return null;
        }

        var words = typeName[(root.Length + 1)..].Split('.');
        return words.Length > 1 ? words[0] : null;
    }

    public override string ToString() => Name;
}

/// <summary>A static field.</summary>
internal sealed record StaticField(string Name, string Type, bool ReadOnly, bool Private);
