namespace ParticleLims.Analysis.ModelFits;

/// <summary>A sum of squares to be made small: residuals and their derivatives at given parameters.</summary>
internal interface ILeastSquaresProblem
{
    /// <summary>How many residuals there are.</summary>
    int Points { get; }

    /// <summary>How many parameters there are.</summary>
    int Parameters { get; }

    /// <summary>
    /// Fills in (measured - model)/u for each point, and the derivatives of model/u, parameter after parameter. Where the model has no value
    /// a residual is not finite.
    /// </summary>
    void Evaluate(ReadOnlySpan<double> parameters, Span<double> residuals, Span<double> derivatives);
}

/// <summary>Where a sum of squares is smallest.</summary>
internal sealed record LeastSquaresSolution
{
    public required double[] Parameters { get; init; }

    /// <summary>The inverse of JᵀJ, row after row; the covariance of the parameters where the residuals have variance one.</summary>
    public required double[] Covariance { get; init; }

    public required double SumOfSquares { get; init; }

    public required int Steps { get; init; }

    /// <summary>Whether the residuals are at right angles to every derivative there, as they are at a smooth minimum.</summary>
    public required bool Settled { get; init; }
}
