using System.Globalization;

namespace ParticleLims.Benchmarks;

/// <summary>How often something is measured.</summary>
internal static class Repeats
{
    /// <summary>The one number on the command line, or the usual one.</summary>
    public static int Read(string[] arguments, int otherwise) => arguments switch
    {
        [] => otherwise,
        [var one] when int.TryParse(one, NumberStyles.None, CultureInfo.InvariantCulture, out var count) && count > 0 => count,
        _ => throw new ArgumentException("After the verb comes how often to measure, a whole number from 1.", nameof(arguments)),
    };
}
