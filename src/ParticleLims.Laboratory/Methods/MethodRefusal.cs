using ParticleLims.Laboratory.Record;

namespace ParticleLims.Laboratory.Methods;

/// <summary>Refuses, in words, what no laboratory could follow.</summary>
internal static class MethodRefusal
{
    public static void Unless(bool holds, string member, string words)
    {
        if (!holds)
        {
            throw new RefusedException("method", words, member);
        }
    }
}
