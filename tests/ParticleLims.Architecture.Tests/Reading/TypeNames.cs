using System.Collections.Immutable;
using System.Reflection.Metadata;

namespace ParticleLims.Architecture.Tests.Reading;

/// <summary>Names of types as text: "Namespace.Type", nested ones "Namespace.Outer.Inner", with type arguments in angle brackets.</summary>
internal sealed class TypeNames(MetadataReader metadata) : ISignatureTypeProvider<string, object?>
{
    public string Of(EntityHandle type) => type.Kind switch
    {
        HandleKind.TypeDefinition => GetTypeFromDefinition(metadata, (TypeDefinitionHandle)type, 0),
        HandleKind.TypeReference => GetTypeFromReference(metadata, (TypeReferenceHandle)type, 0),
        HandleKind.TypeSpecification => metadata.GetTypeSpecification((TypeSpecificationHandle)type).DecodeSignature(this, null),
        _ => string.Empty,
    };

    public TypeDefinitionHandle Outermost(TypeDefinitionHandle type)
    {
        while (metadata.GetTypeDefinition(type).GetDeclaringType() is { IsNil: false } outer)
        {
            type = outer;
        }

        return type;
    }

    /// <summary>Closures, state machines and the like have angle brackets in their names, which no language allows.</summary>
    public bool IsMadeByCompiler(TypeDefinition type) => metadata.GetString(type.Name).Contains('<', StringComparison.Ordinal);

    public bool IsMadeByCompiler(TypeDefinitionHandle type) => IsMadeByCompiler(metadata.GetTypeDefinition(type));

    public string GetTypeFromDefinition(MetadataReader reader, TypeDefinitionHandle handle, byte rawTypeKind)
    {
        var type = reader.GetTypeDefinition(handle);
        var outer = type.GetDeclaringType();
        return Join(outer.IsNil ? reader.GetString(type.Namespace) : GetTypeFromDefinition(reader, outer, 0), reader.GetString(type.Name));
    }

    public string GetTypeFromReference(MetadataReader reader, TypeReferenceHandle handle, byte rawTypeKind)
    {
        var type = reader.GetTypeReference(handle);
        var outer = type.ResolutionScope.Kind == HandleKind.TypeReference
            ? GetTypeFromReference(reader, (TypeReferenceHandle)type.ResolutionScope, 0)
            : reader.GetString(type.Namespace);
        return Join(outer, reader.GetString(type.Name));
    }

    public string GetTypeFromSpecification(MetadataReader reader, object? genericContext, TypeSpecificationHandle handle, byte rawTypeKind) =>
        reader.GetTypeSpecification(handle).DecodeSignature(this, genericContext);

    public string GetPrimitiveType(PrimitiveTypeCode typeCode) => "System." + typeCode;

    public string GetGenericInstantiation(string genericType, ImmutableArray<string> typeArguments) => $"{genericType}<{string.Join(',', typeArguments)}>";

    public string GetArrayType(string elementType, ArrayShape shape) => elementType + "[]";

    public string GetSZArrayType(string elementType) => elementType + "[]";

    public string GetByReferenceType(string elementType) => elementType;

    public string GetPointerType(string elementType) => elementType;

    public string GetPinnedType(string elementType) => elementType;

    public string GetModifiedType(string modifier, string unmodifiedType, bool isRequired) => unmodifiedType;

    public string GetFunctionPointerType(MethodSignature<string> signature) => "System.IntPtr";

    public string GetGenericMethodParameter(object? genericContext, int index) => string.Empty;

    public string GetGenericTypeParameter(object? genericContext, int index) => string.Empty;

    private static string Join(string outer, string name) => outer.Length == 0 ? WithoutArity(name) : $"{outer}.{WithoutArity(name)}";

    private static string WithoutArity(string name) => name.Split('`')[0];
}
