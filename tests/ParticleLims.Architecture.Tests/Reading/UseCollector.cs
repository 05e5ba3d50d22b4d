using System.Reflection.Metadata;

namespace ParticleLims.Architecture.Tests.Reading;

/// <summary>Collects the types and members that signatures, attributes and method bodies name.</summary>
internal sealed class UseCollector(MetadataReader metadata, TypeNames names)
{
    private static readonly char[] Separators = ['<', '>', ',', '[', ']'];
    private readonly HashSet<string> found = new(StringComparer.Ordinal);

    public IReadOnlySet<string> Found => found;

    public void AddType(EntityHandle type)
    {
        if (!type.IsNil)
        {
            Add(names.Of(type));
        }
    }

    public void AddField(FieldDefinition field)
    {
        Add(field.DecodeSignature(names, null));
        AddAttributes(field.GetCustomAttributes());
    }

    public void AddSignature(MethodDefinition method)
    {
        Add(method.DecodeSignature(names, null));
        AddConstraints(method.GetGenericParameters());
    }

    public void AddConstraints(GenericParameterHandleCollection parameters)
    {
        foreach (var constraint in parameters.SelectMany(one => metadata.GetGenericParameter(one).GetConstraints()))
        {
            AddType(metadata.GetGenericParameterConstraint(constraint).Type);
        }
    }

    public void AddAttributes(CustomAttributeHandleCollection attributes)
    {
        foreach (var attribute in attributes)
        {
            AddToken(metadata.GetCustomAttribute(attribute).Constructor);
        }
    }

    public void AddBody(MethodBodyBlock body)
    {
        if (!body.LocalSignature.IsNil)
        {
            foreach (var local in metadata.GetStandaloneSignature(body.LocalSignature).DecodeLocalSignature(names, null))
            {
                Add(local);
            }
        }

        foreach (var region in body.ExceptionRegions)
        {
            AddType(region.CatchType);
        }

        foreach (var token in Instructions.TokensIn(body.GetILReader()))
        {
            AddToken(token);
        }
    }

    private void AddToken(EntityHandle token)
    {
        switch (token.Kind)
        {
            case HandleKind.MethodSpecification:
                var specification = metadata.GetMethodSpecification((MethodSpecificationHandle)token);
                specification.DecodeSignature(names, null).ToList().ForEach(Add);
                AddToken(specification.Method);
                break;
            case HandleKind.MemberReference:
                AddMember(metadata.GetMemberReference((MemberReferenceHandle)token));
                break;
            case HandleKind.MethodDefinition:
                var method = metadata.GetMethodDefinition((MethodDefinitionHandle)token);
                AddMember(names.Of(method.GetDeclaringType()), metadata.GetString(method.Name));
                break;
            case HandleKind.FieldDefinition:
                var field = metadata.GetFieldDefinition((FieldDefinitionHandle)token);
                AddMember(names.Of(field.GetDeclaringType()), metadata.GetString(field.Name));
                break;
            default:
                AddType(token);
                break;
        }
    }

    private void AddMember(MemberReference member)
    {
        AddMember(member.Parent.Kind == HandleKind.MethodDefinition ? string.Empty : names.Of(member.Parent), metadata.GetString(member.Name));
        if (member.GetKind() == MemberReferenceKind.Method)
        {
            Add(member.DecodeMethodSignature(names, null));
        }
        else
        {
            Add(member.DecodeFieldSignature(names, null));
        }
    }

    private void AddMember(string type, string name)
    {
        Add(type);
        found.Add($"{type.Split('<')[0]}.{name}");
    }

    private void Add(MethodSignature<string> signature)
    {
        Add(signature.ReturnType);
        foreach (var parameter in signature.ParameterTypes)
        {
            Add(parameter);
        }
    }

    private void Add(string type) => found.UnionWith(type.Split(Separators, StringSplitOptions.RemoveEmptyEntries));
}
