namespace ParticleLims.Analysis.Tests.ReferenceData;

/// <summary>How many significant digits of a certified value a computed one has: minus the decimal logarithm of the relative error, 15 at most.</summary>
internal static class Digits
{
    public static double Agreeing(double computed, double certified)
    {
        var error = Math.Abs(computed - certified);
        return error == 0 ? 15 : Math.Min(15, -Math.Log10(certified == 0 ? error : error / Math.Abs(certified)));
    }
}
