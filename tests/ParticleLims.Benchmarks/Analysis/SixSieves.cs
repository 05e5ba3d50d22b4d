using ParticleLims.Analysis;
using ParticleLims.Analysis.Conformity;
using ParticleLims.Analysis.Quantities;
using ParticleLims.Analysis.Uncertainty;
using ParticleLims.Analysis.Weighings;

namespace ParticleLims.Benchmarks.Analysis;

/// <summary>The run that is measured: 10 g on six sieves from 20 to 125 µm, with the uncertainty that the laboratory states for every run: balance and apertures.</summary>
internal static class SixSieves
{
    /// <summary>In µm.</summary>
    public static readonly double[] Sizes = [20, 32, 45, 63, 90, 125];

    /// <summary>Percentages passing.</summary>
    public static readonly double[] Passing = [8.5, 24.75, 47.13, 71, 90.25, 98];

    /// <summary>The test portion in g.</summary>
    public const double Portion = 10;

    /// <summary>Standard deviation of the balance and its readability in g; its linearity in g as a half width.</summary>
    public const double Repeatability = 0.001, Readability = 0.001, Linearity = 0.002;

    /// <summary>The standard uncertainty of an aperture over the aperture.</summary>
    public const double ApertureShare = 0.02;

    /// <summary>With uncertainty by either method, D10, D50 and D90, and two limits.</summary>
    public static EvaluationRequest Request(Procedure procedure, UncertaintyMethod method, bool withLimits) => new()
    {
        Procedure = procedure,
        Cuts = [.. Sizes.Select((_, sieve) => Cut(procedure, sieve))],
        Settings = new EvaluationSettings { Percentiles = [10m, 50m, 90m], TrueDensityGramsPerCubicCentimetre = 2.71m },
        Uncertainty = new UncertaintyInput
        {
            BalanceRepeatability = Grams(Repeatability), Readability = Grams(Readability), Linearity = Grams(Linearity), Method = method, Trials = 1_000_000,
        },
        Limits = withLimits
            ?
            [
                new LimitInput { Characteristic = Characteristic.Passing, Aperture = Aperture.FromMicrometres(63m), Lower = 60m, Rule = DecisionRule.Guarded },
                new LimitInput { Characteristic = Characteristic.Percentile, Percent = 50m, Lower = 40m, Upper = 55m },
            ]
            : [],
    };

    private static CutInput Cut(Procedure procedure, int sieve)
    {
        var empty = 310m - sieve;
        var arrived = sieve == 0 || procedure == Procedure.SeparatePortions ? 0 : Passing[sieve - 1];
        return new CutInput
        {
            Aperture = Aperture.FromMicrometres((decimal)Sizes[sieve]),
            Empty = Mass.FromGrams(empty),
            Loaded = sieve == 0 || procedure == Procedure.SeparatePortions ? Mass.FromGrams(empty + Residue(arrived)) : null,
            After = Mass.FromGrams(empty + Residue(Passing[sieve])),
            ApertureStandardUncertainty = Aperture.FromMicrometres((decimal)(Sizes[sieve] * ApertureShare)),
        };
    }

    private static decimal Residue(double passing) => decimal.Round((decimal)(Portion * (100 - passing) / 100), 3);

    private static Mass Grams(double grams) => Mass.FromGrams((decimal)grams);
}
