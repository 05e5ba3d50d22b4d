using ParticleLims.Analysis.Statistics.Arithmetic;

namespace ParticleLims.Analysis.Statistics.Variance;

/// <summary>
/// Two things crossed, each combination with the same number of values: parts and people, bottles and runs (docs/science/crossed-anova.md). With one value in each cell
/// the interaction is all that is left and serves as the residual. Source: common textbook formulas, checked against R's aov on NIST's homogeneity data.
/// </summary>
public sealed record CrossedAnova
{
    private CrossedAnova()
    {
    }

    /// <summary>Between the rows.</summary>
    public VarianceLine Rows { get; private init; } = null!;

    /// <summary>Between the columns.</summary>
    public VarianceLine Columns { get; private init; } = null!;

    /// <summary>What rows and columns together do not explain of the cells' means.</summary>
    public VarianceLine Interaction { get; private init; } = null!;

    /// <summary>Within the cells; no degrees of freedom for one value in each.</summary>
    public VarianceLine Within { get; private init; } = null!;

    /// <summary>How many values each cell has.</summary>
    public int Replicates { get; private init; }

    /// <summary>What rows and columns are compared with: within the cells, or the interaction where each cell has one value.</summary>
    public VarianceLine Residual => Within.DegreesOfFreedom > 0 ? Within : Interaction;

    /// <summary>The quotient of the mean squares of rows and residual, without unit; null if nothing is left in the residual.</summary>
    public double? RowF => Rows.Over(Residual);

    /// <summary>The probability of so great a quotient if the rows do not differ, between 0 and 1; null as above.</summary>
    public double? RowProbability => Rows.ProbabilityOver(Residual);

    /// <summary>The quotient of the mean squares of columns and residual, without unit; null if nothing is left in the residual.</summary>
    public double? ColumnF => Columns.Over(Residual);

    /// <summary>The probability of so great a quotient if the columns do not differ, between 0 and 1; null as above.</summary>
    public double? ColumnProbability => Columns.ProbabilityOver(Residual);

    /// <summary>The quotient of the mean squares of interaction and cells, without unit; null for one value in each cell.</summary>
    public double? InteractionF => Interaction.Over(Within);

    /// <summary>The probability of so great a quotient without interaction, between 0 and 1; null as above.</summary>
    public double? InteractionProbability => Interaction.ProbabilityOver(Within);

    /// <summary>The analysis of a table of two rows and columns or more.</summary>
    /// <param name="cells">Rows of cells, each with the same number of values.</param>
    /// <exception cref="ArgumentException">Too few rows or columns, cells of different size, or a value that is not a number up to ±1e100.</exception>
    public static CrossedAnova Of(IReadOnlyList<IReadOnlyList<IReadOnlyList<double>>> cells)
    {
        Given.Enough(cells, 2, nameof(cells));
        foreach (var row in cells)
        {
            Given.Enough(row, 2, nameof(cells));
            Given.SameLength(row, cells[0], nameof(cells));
            foreach (var cell in row)
            {
                Given.Values(cell, 1, nameof(cells));
                Given.SameLength(cell, cells[0][0], nameof(cells));
            }
        }

        return Of(cells.Select(row => row.Select(cell => cell.Select(value => (DoubleDouble)value).ToArray()).ToArray()).ToArray());
    }

    private static CrossedAnova Of(DoubleDouble[][][] cells)
    {
        var (rows, columns, replicates) = (cells.Length, cells[0].Length, cells[0][0].Length);
        var mean = Sums.Mean([.. cells.SelectMany(row => row.SelectMany(cell => cell))]);
        var rowMeans = cells.Select(row => Sums.Mean([.. row.SelectMany(cell => cell)])).ToArray();
        var columnMeans = Enumerable.Range(0, columns).Select(j => Sums.Mean([.. cells.SelectMany(row => row[j])])).ToArray();
        var interaction = Sums.Of(cells.SelectMany((row, i) => row.Select((cell, j) => Square(Sums.Mean(cell) - rowMeans[i] - columnMeans[j] + mean))));
        var within = Sums.Of(cells.SelectMany(row => row.Select(cell => Sums.SquaresAbout(cell, Sums.Mean(cell)))));
        return new CrossedAnova
        {
            Rows = VarianceLine.Of(columns * replicates * Sums.SquaresAbout(rowMeans, mean), rows - 1),
            Columns = VarianceLine.Of(rows * replicates * Sums.SquaresAbout(columnMeans, mean), columns - 1),
            Interaction = VarianceLine.Of(replicates * interaction, (rows - 1) * (columns - 1)),
            Within = VarianceLine.Of(within, rows * columns * (replicates - 1)),
            Replicates = replicates,
        };
    }

    private static DoubleDouble Square(DoubleDouble value) => value * value;
}
