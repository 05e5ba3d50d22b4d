namespace ParticleLims.Analysis.Conformity.History;

/// <summary>Two bits for each distribution, 64 distributions a word.</summary>
internal sealed record RowBits(ulong[] Conform, ulong[] Undecided)
{
    public const int InWord = 64;

    public static RowBits Room(int words) => new(new ulong[words], new ulong[words]);

    /// <summary>All must conform; one that is missed decides.</summary>
    public static RowBits Together(IReadOnlyList<RowBits> limits)
    {
        var together = Room(limits[0].Conform.Length);
        for (var word = 0; word < together.Conform.Length; word++)
        {
            var (all, missed) = (ulong.MaxValue, 0UL);
            foreach (var limit in limits)
            {
                all &= limit.Conform[word];
                missed |= ~(limit.Conform[word] | limit.Undecided[word]);
            }

            (together.Conform[word], together.Undecided[word]) = (all, ~(all | missed));
        }

        return together;
    }

    /// <summary>The bits of a word that belong to a distribution.</summary>
    public static ulong Used(int rows, int word) => rows - (word * InWord) is < InWord and var rest ? (1UL << rest) - 1 : ulong.MaxValue;

    public Verdict Of(int row)
    {
        var bit = 1UL << (row % InWord);
        return (Conform[row / InWord] & bit) != 0 ? Verdict.Conforms : (Undecided[row / InWord] & bit) != 0 ? Verdict.Undecided : Verdict.DoesNotConform;
    }
}
