using ParticleLims.Analysis;
using ParticleLims.Laboratory.Record;

namespace ParticleLims.Laboratory.Runs;

/// <summary>The engine for whoever may ask it, on numbers of their own; stores nothing.</summary>
public sealed class FreeEvaluation(ReadPath reading)
{
    /// <summary>Evaluates a request that belongs to no run.</summary>
    public Task<EvaluationOutcome> EvaluateAsync(Actor actor, EvaluationRequest request, CancellationToken cancellation) =>
        reading.ReadAsync(actor, Permission.Evaluate, (_, _, _) => Task.FromResult(Engine.Evaluate(request, Engine.Version, OnAllProcessors)), cancellation);

    private static void OnAllProcessors(int count, Action<int> work) => Parallel.For(0, count, work);
}
