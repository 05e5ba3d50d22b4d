using ParticleLims.Analysis;
using ParticleLims.Laboratory.Record;

namespace ParticleLims.Laboratory.Runs;

/// <summary>A stored evaluation opened again: computed anew from its stored input and compared with what was stored.</summary>
/// <param name="Stored">The row.</param>
/// <param name="Result">What the engine gives now, as the version that is named in the row.</param>
/// <param name="SameBits">Whether that is what was stored, to the last bit; not so where the engine cannot answer as that version any more.</param>
public sealed record OpenedEvaluation(Evaluation Stored, EvaluationResult Result, bool SameBits)
{
    /// <summary>Opens a stored evaluation.</summary>
    /// <exception cref="RefusedException">The engine refuses an input that it accepted when it was stored.</exception>
    public static OpenedEvaluation Of(Evaluation stored)
    {
        ArgumentNullException.ThrowIfNull(stored);
        var request = EvaluationJson.Read(stored.Input);
        var result = Evaluate(request, Engine.CanAnswerAs(request, stored.EngineVersion) ? stored.EngineVersion : Engine.Version);
        return new OpenedEvaluation(stored, result, result.ToCanonicalText() == stored.Result && RecordChain.HashOf(stored.Result) == stored.ResultHash);
    }

    /// <summary>Evaluates or refuses in the engine's words.</summary>
    internal static EvaluationResult Evaluate(EvaluationRequest request) => Evaluate(request, Engine.Version);

    private static EvaluationResult Evaluate(EvaluationRequest request, string version) => Engine.Evaluate(request, version) switch
    {
        Evaluated evaluated => evaluated.Result,
        Refused refused => throw new RefusedException(refused.Findings[0].Code, string.Join(' ', refused.Findings.Select(finding => finding.Message)), refused.Findings[0].Member),
        _ => throw new InvalidOperationException("An evaluation gives a result or a refusal."),
    };

    /// <summary>A new row for a run.</summary>
    internal static Evaluation Store(DeedScope scope, Guid runId, EvaluationRequest request, EvaluationResult result)
    {
        var text = result.ToCanonicalText();
        return new Evaluation { Id = scope.NewId(), RunId = runId, EngineVersion = result.Engine, Input = EvaluationJson.Write(request), Result = text, ResultHash = RecordChain.HashOf(text), At = scope.Now, Curve = StoredCurve.Write(result.Curve) };
    }
}
