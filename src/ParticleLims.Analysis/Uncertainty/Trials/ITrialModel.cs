namespace ParticleLims.Analysis.Uncertainty.Trials;

/// <summary>A measurement model Y = f(X) of which trials are made, a chunk of <see cref="TrialColumn.Length"/> at a time (JCGM 101:2008, 5.9).</summary>
internal interface ITrialModel
{
    /// <summary>How many outputs there are.</summary>
    int Outputs { get; }

    /// <summary>How many columns of numbers the work on a chunk needs.</summary>
    int Columns { get; }

    /// <summary>Draws the inputs of a chunk and writes its outputs; an output that has no value is not a number.</summary>
    /// <param name="random">The random numbers of the chunk's block.</param>
    /// <param name="workspace">So many columns as asked, with anything in them.</param>
    /// <param name="outputs">One column for each output.</param>
    void Run(ref TrialRandom random, Span<double> workspace, Span<double> outputs);
}
