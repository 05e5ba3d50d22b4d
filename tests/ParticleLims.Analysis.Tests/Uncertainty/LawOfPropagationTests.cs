using System.Globalization;
using ParticleLims.Analysis.Tests.ReferenceData;
using ParticleLims.Analysis.Uncertainty;

namespace ParticleLims.Analysis.Tests.Uncertainty;

/// <summary>JCGM 100:2008 (GUM), as quoted with clause numbers in ReferenceData/gum_examples.csv; "from memory" stands there where a printed value was not seen.</summary>
public sealed class LawOfPropagationTests
{
    /// <summary>H.1, end gauge calibration: contributions 25, 9.7, 2.9 and 16.6 nm; u_c = 32 nm (unrounded 31.711).</summary>
    [Fact]
    public void The_end_gauge_of_H1_has_a_combined_uncertainty_of_32_nm()
    {
        double[] contributions = EndGauge();
        var combined = LawOfPropagation.Combine([1, 1, 1, 1], contributions);
        Math.Round(combined).ShouldBe(Published("GUM H.1", "u_c nm")[0]);
        combined.ShouldBe(31.711, 0.01);
        contributions.Select(nanometres => Math.Round(nanometres, 1)).ShouldBe([25, 9.7, 2.9, 16.7]);
    }

    /// <summary>H.1.6: ν of d from 5.8, 3.9, 6.7 nm with 24, 5 and 8: 25.6, for which the GUM takes u(d) as the rounded 9.7 nm; of the whole 16.7, truncated 16; with t99(16) = 2.92 of table G.2, U99 = 93 nm.</summary>
    [Fact]
    public void The_end_gauge_of_H1_has_sixteen_effective_degrees_of_freedom()
    {
        var ofDifference = LawOfPropagation.EffectiveDegreesOfFreedom([5.8, 3.9, 6.7], [24, 5, 8]);
        ofDifference.ShouldBe(25.447, 0.001);
        (ofDifference * Math.Pow(9.7 / LawOfPropagation.Combine([1, 1, 1], [5.8, 3.9, 6.7]), 4)).ShouldBe(25.6, 0.05);
        var freedom = LawOfPropagation.EffectiveDegreesOfFreedom(EndGauge(), [18, ofDifference, 50, 2]);
        freedom.ShouldBe(16.656, 0.05);
        Math.Floor(freedom).ShouldBe(16);
        Math.Round(2.92 * 32).ShouldBe(93);
    }

    /// <summary>G.4.1: relative 0.25, 0.57 and 0.82 % with n = 10, 5, 15: ν = 19.0 with u_c rounded to 1.03; unrounded 18.9987.</summary>
    [Fact]
    public void The_example_of_G41_has_nineteen_effective_degrees_of_freedom() =>
        Math.Round(LawOfPropagation.EffectiveDegreesOfFreedom([0.25, 0.57, 0.82], [9, 4, 14]), 1).ShouldBe(Published("GUM G.4.1", "rel. u")[0]);

    [Fact]
    public void Known_distributions_have_infinitely_many_degrees_of_freedom()
    {
        LawOfPropagation.EffectiveDegreesOfFreedom([1, 2], [double.PositiveInfinity, double.PositiveInfinity]).ShouldBe(double.PositiveInfinity);
        LawOfPropagation.EffectiveDegreesOfFreedom([1, 0.5], [4, double.PositiveInfinity]).ShouldBe(4 * 1.25 * 1.25, 1e-12);
    }

    /// <summary>EA-4/02 S2, weight of 10 kg: 22.5, 8.66, 14.4, 5.77 and 5.77 mg: u = 29.2 mg, U = 58 mg.</summary>
    [Fact]
    public void The_weight_of_EA402_has_an_expanded_uncertainty_of_58_mg()
    {
        var u = LawOfPropagation.Combine([1, 1, 1, 1, 1], [22.5, 8.66, 14.4, 5.77, 5.77]);
        Math.Round(u, 1).ShouldBe(Published("EA-4/02 S2", "10 kg weight")[0]);
        Math.Floor(2 * u).ShouldBe(Published("EA-4/02 S2", "10 kg weight")[1]);
    }

    /// <summary>
    /// H.2, resistance and reactance measured at the same time: five sets of V, I and φ give correlated means. R = V cos φ/I, X = V sin φ/I, Z = V/I: u = 0.071, 0.295 and 0.236 Ω;
    /// r(R,X) = -0.588, r(R,Z) = -0.485, r(X,Z) = 0.993.
    /// </summary>
    [Fact]
    public void Correlated_inputs_of_H2_give_correlated_outputs()
    {
        double[] v = [5.007, 4.994, 5.005, 4.990, 4.999];
        double[] i = [19.663e-3, 19.639e-3, 19.640e-3, 19.685e-3, 19.678e-3];
        double[] phi = [1.0456, 1.0438, 1.0468, 1.0428, 1.0433];
        var (mv, mi, mp) = (v.Average(), i.Average(), phi.Average());
        double[][] inputs = [v, i, phi];
        var covariance = inputs.SelectMany(a => inputs.Select(b => CovarianceOfMeans(a, b))).ToArray();
        double[] sensitivities =
        [
            Math.Cos(mp) / mi, -mv * Math.Cos(mp) / (mi * mi), -mv * Math.Sin(mp) / mi,
            Math.Sin(mp) / mi, -mv * Math.Sin(mp) / (mi * mi), mv * Math.Cos(mp) / mi,
            1 / mi, -mv / (mi * mi), 0,
        ];
        var result = LawOfPropagation.Covariance(sensitivities, covariance, 3);
        double U(int output) => Math.Sqrt(result[(output * 3) + output]);
        double Correlation(int a, int b) => result[(a * 3) + b] / U(a) / U(b);
        new[] { U(0), U(1), U(2) }.Select(u => Math.Round(u, 3)).ShouldBe([0.071, 0.296, 0.236]);
        Published("GUM H.2", "u(R)").ShouldBe([0.071, 0.295, 0.236], "0.29558 was printed as 0.295");
        (U(0), U(1), U(2)).ShouldSatisfyAllConditions(u => u.Item1.ShouldBe(0.07107, 5e-6), u => u.Item2.ShouldBe(0.29558, 5e-6), u => u.Item3.ShouldBe(0.23634, 5e-6));
        Correlation(0, 1).ShouldBe(-0.58843, 5e-6);
        Correlation(0, 2).ShouldBe(-0.48526, 5e-6);
        Correlation(1, 2).ShouldBe(0.99251, 5e-6);
    }

    [Fact]
    public void Sizes_that_do_not_fit_are_a_programming_error()
    {
        Should.Throw<ArgumentException>(() => LawOfPropagation.Combine([1], [1, 2]));
        Should.Throw<ArgumentException>(() => LawOfPropagation.Covariance([1, 2, 3], [1, 0, 0, 1], 2));
        Should.Throw<ArgumentException>(() => LawOfPropagation.EffectiveDegreesOfFreedom([1], [1, 2]));
    }

    /// <summary>In nm: the standard 25; the difference 9.7; l_S θ u(δα) = 50.000623 mm · 0.1 °C · 0.58e-6/°C = 2.9; l_S α u(δθ) = 50.000623 mm · 11.5e-6/°C · 0.029 °C = 16.7.</summary>
    private static double[] EndGauge() => [25, 9.6819, 50.000623e6 * 0.1 * 0.58e-6, 50.000623e6 * 11.5e-6 * 0.029];

    /// <summary>The numbers published for a quantity.</summary>
    private static List<double> Published(string document, string quantity) =>
        [.. ReferenceFile.Rows("gum_examples.csv").Single(row => row["document"] == document && row["quantity"].StartsWith(quantity, StringComparison.Ordinal))["published"]
            .Split(';').Select(text => double.TryParse(text.Trim().Split(' ')[0], NumberStyles.Float, CultureInfo.InvariantCulture, out var number) ? number : double.NaN)];

    private static double CovarianceOfMeans(double[] a, double[] b) =>
        a.Zip(b, (x, y) => (x - a.Average()) * (y - b.Average())).Sum() / (a.Length * (a.Length - 1.0));
}
