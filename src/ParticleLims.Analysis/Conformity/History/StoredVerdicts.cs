using System.Numerics;

namespace ParticleLims.Analysis.Conformity.History;

/// <summary>How many distributions got which verdict.</summary>
/// <param name="Conform">How many conform, without unit.</param>
/// <param name="DoNotConform">How many do not, without unit.</param>
/// <param name="Undecided">Of how many the data cannot tell, without unit.</param>
public sealed record VerdictCounts(int Conform, int DoNotConform, int Undecided);

/// <summary>What limits say of stored distributions: counts, and the verdict of each on demand.</summary>
public sealed class StoredVerdicts
{
    private readonly int _rows;
    private readonly RowBits[] _limits;
    private readonly RowBits _together;

    internal StoredVerdicts(int rows, RowBits[] limits)
    {
        (_rows, _limits, _together) = (rows, limits, RowBits.Together(limits));
        ByLimit = [.. limits.Select(Count)];
        AllLimits = Count(_together);
    }

    /// <summary>For each limit, in their order.</summary>
    public IReadOnlyList<VerdictCounts> ByLimit { get; }

    /// <summary>All limits together: a distribution that misses one does not conform; else it is undecided if one is.</summary>
    public VerdictCounts AllLimits { get; }

    /// <summary>The verdict on one distribution by all limits together.</summary>
    /// <param name="row">Its place, from 0.</param>
    /// <exception cref="ArgumentOutOfRangeException">There is no such distribution.</exception>
    public Verdict Of(int row) => _together.Of(Checked(row));

    /// <summary>The verdict on one distribution by one limit.</summary>
    /// <param name="row">Its place, from 0.</param>
    /// <param name="limit">The limit's place, from 0.</param>
    /// <exception cref="ArgumentOutOfRangeException">There is no such distribution or limit.</exception>
    public Verdict Of(int row, int limit) => limit >= 0 && limit < _limits.Length
        ? _limits[limit].Of(Checked(row))
        : throw new ArgumentOutOfRangeException(nameof(limit), limit, "There is no limit in that place.");

    private int Checked(int row) => row >= 0 && row < _rows ? row : throw new ArgumentOutOfRangeException(nameof(row), row, "There is no distribution in that place.");

    private VerdictCounts Count(RowBits bits)
    {
        var (conform, undecided) = (0, 0);
        for (var word = 0; word < bits.Conform.Length; word++)
        {
            var used = RowBits.Used(_rows, word);
            conform += BitOperations.PopCount(bits.Conform[word] & used);
            undecided += BitOperations.PopCount(bits.Undecided[word] & used);
        }

        return new VerdictCounts(conform, _rows - conform - undecided, undecided);
    }
}
