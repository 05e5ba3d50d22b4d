namespace ParticleLims.Laboratory.Runs;

/// <summary>What a step asks for.</summary>
public enum RunStepKind
{
    /// <summary>Put something on the pan.</summary>
    Weigh,
    /// <summary>Sieve for a time.</summary>
    Sieve,
    /// <summary>Do what comes before the first sieve.</summary>
    Prepare,
}

/// <summary>One step of the guided run.</summary>
/// <param name="Kind">What is asked for.</param>
/// <param name="Weighing">For a weighing: what goes on the pan.</param>
/// <param name="Position">The sieve's position; 0 for container, receiver, collector and the whole stack.</param>
/// <param name="Round">0 for the method's sieving time and all that is weighed once; 1 and on for each further interval of the end point.</param>
/// <param name="Preparation">For a preparation: which one.</param>
public sealed record RunStep(RunStepKind Kind, WeighingKind? Weighing, int Position, int Round = 0, PreparationKind? Preparation = null)
{
    /// <summary>A weighing step.</summary>
    public static RunStep Weigh(WeighingKind kind, int position, int round = 0) => new(RunStepKind.Weigh, kind, position, round);

    /// <summary>A sieving step.</summary>
    public static RunStep Sieve(int position, int round = 0) => new(RunStepKind.Sieve, null, position, round);

    /// <summary>A preparation.</summary>
    public static RunStep Prepare(PreparationKind kind) => new(RunStepKind.Prepare, null, 0, Preparation: kind);

    /// <summary>The step that a weighing was taken in.</summary>
    public static RunStep Of(Weighing weighing)
    {
        ArgumentNullException.ThrowIfNull(weighing);
        return Weigh(weighing.Kind, weighing.Position, weighing.Round);
    }

    /// <summary>Whether a stretch of sieving belongs to this step.</summary>
    internal bool Holds(SievingInterval interval) => Kind == RunStepKind.Sieve && interval.Position == Position && interval.Round == Round;
}
