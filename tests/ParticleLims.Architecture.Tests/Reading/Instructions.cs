using System.Reflection.Emit;
using System.Reflection.Metadata;
using System.Reflection.Metadata.Ecma335;

namespace ParticleLims.Architecture.Tests.Reading;

/// <summary>Walks through the instructions of a method body.</summary>
internal static class Instructions
{
    private static readonly Dictionary<int, OperandType> Operands = typeof(OpCodes).GetFields()
        .Select(field => field.GetValue(null)).OfType<OpCode>().ToDictionary(code => (int)(ushort)code.Value, code => code.OperandType);

    /// <summary>The types, methods and fields that the instructions name.</summary>
    public static IEnumerable<EntityHandle> TokensIn(BlobReader code)
    {
        var tokens = new List<EntityHandle>();
        while (code.RemainingBytes > 0)
        {
            int instruction = code.ReadByte();
            var operand = Operands[instruction == 0xFE ? 0xFE00 | code.ReadByte() : instruction];
            switch (operand)
            {
                case OperandType.InlineField or OperandType.InlineMethod or OperandType.InlineTok or OperandType.InlineType:
                    tokens.Add(MetadataTokens.EntityHandle(code.ReadInt32()));
                    break;
                case OperandType.InlineSwitch:
                    var branches = code.ReadInt32();
                    code.Offset += 4 * branches;
                    break;
                default:
                    code.Offset += LengthOf(operand);
                    break;
            }
        }

        return tokens;
    }

    private static int LengthOf(OperandType operand) => operand switch
    {
        OperandType.InlineNone => 0,
        OperandType.ShortInlineBrTarget or OperandType.ShortInlineI or OperandType.ShortInlineVar => 1,
        OperandType.InlineVar => 2,
        OperandType.InlineI8 or OperandType.InlineR => 8,
        _ => 4,
    };
}
