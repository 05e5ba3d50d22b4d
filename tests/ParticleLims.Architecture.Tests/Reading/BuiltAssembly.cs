using System.Collections.Concurrent;
using System.Reflection;
using System.Reflection.Metadata;
using System.Reflection.PortableExecutable;

namespace ParticleLims.Architecture.Tests.Reading;

/// <summary>Reads the types of a built DLL from its metadata and its instructions, without loading it.</summary>
internal sealed class BuiltAssembly
{
    private static readonly ConcurrentDictionary<string, IReadOnlyList<BuiltType>> Known = new(StringComparer.Ordinal);
    private readonly MetadataReader metadata;
    private readonly PEReader file;
    private readonly TypeNames names;

    private BuiltAssembly(PEReader file)
    {
        this.file = file;
        metadata = file.GetMetadataReader();
        names = new TypeNames(metadata);
    }

    /// <summary>The types of a project's DLL that lies beside these tests.</summary>
    public static IReadOnlyList<BuiltType> TypesOf(string project) => Known.GetOrAdd(project, static name =>
    {
        using var dll = new PEReader(File.OpenRead(Path.Combine(AppContext.BaseDirectory, name + ".dll")));
        return new BuiltAssembly(dll).Read();
    });

    private List<BuiltType> Read() =>
    [
        .. metadata.TypeDefinitions
            .GroupBy(names.Outermost)
            .Where(group => !names.IsMadeByCompiler(group.Key))
            .Select(group => Read(names.Of(group.Key), metadata.GetTypeDefinition(group.Key), [.. group.Select(metadata.GetTypeDefinition)])),
    ];

    private BuiltType Read(string name, TypeDefinition outermost, List<TypeDefinition> parts)
    {
        var uses = new UseCollector(metadata, names);
        parts.ForEach(part => Collect(part, uses));
        var signatures = new UseCollector(metadata, names);
        foreach (var method in outermost.GetMethods())
        {
            signatures.AddSignature(metadata.GetMethodDefinition(method));
        }

        return new BuiltType(
            name,
            [.. outermost.GetInterfaceImplementations().Select(one => names.Of(metadata.GetInterfaceImplementation(one).Interface))],
            signatures.Found,
            uses.Found,
            [.. parts.Where(part => !names.IsMadeByCompiler(part)).SelectMany(StaticFields)]);
    }

    private void Collect(TypeDefinition type, UseCollector uses)
    {
        uses.AddType(type.BaseType);
        foreach (var one in type.GetInterfaceImplementations())
        {
            uses.AddType(metadata.GetInterfaceImplementation(one).Interface);
        }

        uses.AddAttributes(type.GetCustomAttributes());
        uses.AddConstraints(type.GetGenericParameters());
        foreach (var field in type.GetFields().Select(metadata.GetFieldDefinition))
        {
            uses.AddField(field);
        }

        foreach (var property in type.GetProperties().Select(metadata.GetPropertyDefinition))
        {
            uses.AddAttributes(property.GetCustomAttributes());
        }

        foreach (var method in type.GetMethods().Select(metadata.GetMethodDefinition))
        {
            uses.AddSignature(method);
            uses.AddAttributes(method.GetCustomAttributes());
            if (method.RelativeVirtualAddress != 0)
            {
                uses.AddBody(file.GetMethodBody(method.RelativeVirtualAddress));
            }
        }
    }

    private IEnumerable<StaticField> StaticFields(TypeDefinition type) =>
        from handle in type.GetFields()
        let field = metadata.GetFieldDefinition(handle)
        where field.Attributes.HasFlag(FieldAttributes.Static) && !field.Attributes.HasFlag(FieldAttributes.Literal)
        let name = metadata.GetString(field.Name)
        select new StaticField(
            name,
            field.DecodeSignature(names, null),
            field.Attributes.HasFlag(FieldAttributes.InitOnly),
            (field.Attributes & FieldAttributes.FieldAccessMask) == FieldAttributes.Private);
}
