using ParticleLims.Laboratory.Methods;

namespace ParticleLims.Web.Runs;

/// <summary>Procedures in words.</summary>
public static class ProcedureWords
{
    /// <summary>The procedure as people say it.</summary>
    public static string Of(SievingProcedure procedure) => procedure switch
    {
        SievingProcedure.SeparatePortions => "air jet, a new test portion for each sieve",
        SievingProcedure.CarriedResidue => "air jet, the residue carried on to the next sieve",
        SievingProcedure.NestedStack => "nested stack over a receiver",
        _ => throw new ArgumentOutOfRangeException(nameof(procedure), procedure, "Not a procedure."),
    };
}
