using ParticleLims.Analysis.Findings;
using ParticleLims.Analysis.Weighings;

namespace ParticleLims.Analysis;

/// <summary>Leads a checked request to its procedure.</summary>
internal static class WeighedTables
{
    public static WeighedTable Of(EvaluationRequest request, IReadOnlyList<OrderedCut> cuts, FindingLog log)
    {
        var allowance = new GainAllowance(request.GainUncertainty);
        var reading = new ResidueReading(allowance, log);
        var settings = request.Settings;
        return request.Procedure switch
        {
            Procedure.SeparatePortions => SeparatePortions.Evaluate(cuts, request.Collected, reading, log),
            Procedure.CarriedResidue => new CarriedResidue(allowance, reading, settings.TransferLoss, log).Evaluate(cuts, request.Collected),
            Procedure.NestedStack => new NestedStack(allowance, reading, settings.Basis, log).Evaluate(cuts, request.Receiver, request.Portion),
            Procedure.GivenDistribution => GivenDistribution.Evaluate(cuts),
            _ => throw new ArgumentOutOfRangeException(nameof(request), request.Procedure, "The procedure is none of the named ones."),
        };
    }
}
