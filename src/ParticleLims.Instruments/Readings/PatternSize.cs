namespace ParticleLims.Instruments.Readings;

/// <summary>
/// Refuses patterns that could become very large or slow before they are compiled: matching without backtracking takes time in
/// proportion to the pattern once its repetitions are written out.
/// </summary>
internal static class PatternSize
{
    private const int MostCharacters = 400;
    private const int MostRepetitions = 99;

    /// <summary>What is wrong, in words; null when the pattern may be compiled.</summary>
    public static string? ProblemOf(string pattern)
    {
        if (pattern.Length is 0 or > MostCharacters)
        {
            return FormattableString.Invariant($"The pattern has 1 to {MostCharacters} characters.");
        }

        var (inClass, afterGroup) = (false, false);
        for (var i = 0; i < pattern.Length; i++)
        {
            if (!inClass && ProblemAt(pattern, i, afterGroup) is { } problem)
            {
                return problem;
            }

            afterGroup = !inClass && pattern[i] == ')';
            inClass = pattern[i] == '[' || (inClass && pattern[i] != ']');
            i += pattern[i] == '\\' ? 1 : 0;
        }

        return null;
    }

    private static string? ProblemAt(string pattern, int place, bool afterGroup)
    {
        var rest = pattern.AsSpan(place);
        if (rest.StartsWith("(?") && !rest.StartsWith("(?:") && !(rest.StartsWith("(?<") && rest.Length > 3 && char.IsAsciiLetter(rest[3])))
        {
            return "The pattern opens a group by (?: or (?<name> only; look-around, options and comments are not allowed because they can take very long or hide what is read.";
        }

        if (rest[0] != '{')
        {
            return null;
        }

        return afterGroup
            ? "The pattern counts the repetitions of a group; only those of one character or class can be counted, a group takes ?, * or +."
            : Largest(rest) > MostRepetitions ? FormattableString.Invariant($"The pattern counts more than {MostRepetitions} repetitions.") : null;
    }

    // The larger number of {2,5}, capped before it can overflow.
    private static int Largest(ReadOnlySpan<char> counts)
    {
        var (largest, number) = (0, 0);
        foreach (var character in counts[1..(counts.IndexOf('}') is > 0 and var end ? end : 1)])
        {
            number = char.IsAsciiDigit(character) ? Math.Min((number * 10) + character - '0', 1_000) : 0;
            largest = Math.Max(largest, number);
        }

        return largest;
    }
}
