using static ParticleLims.Analysis.Tests.ModelFits.Dual;

namespace ParticleLims.Analysis.Tests.ModelFits;

/// <summary>
/// The 27 models of the NIST StRD for nonlinear regression, as the files of the data sets print them (https://www.itl.nist.gov/div898/strd/).
/// Nelson's response is the logarithm of y.
/// </summary>
internal static class NistModels
{
    private const double Pi = 3.141592653589793238462643383279;

    public static Func<double, double, Dual[], Dual> Of(string dataset) => dataset switch
    {
        "Misra1a" or "BoxBOD" => (x, _, b) => b[0] * (1 - Exp(-b[1] * x)),
        "Misra1b" => (x, _, b) => b[0] * (1 - (1 / Square(1 + (b[1] * x / 2)))),
        "Misra1c" => (x, _, b) => b[0] * (1 - Exp(-0.5 * Log(1 + (2 * b[1] * x)))),
        "Misra1d" => (x, _, b) => b[0] * b[1] * x / (1 + (b[1] * x)),
        "Chwirut1" or "Chwirut2" => (x, _, b) => Exp(-b[0] * x) / (b[1] + (b[2] * x)),
        "Lanczos1" or "Lanczos2" or "Lanczos3" => (x, _, b) => (b[0] * Exp(-b[1] * x)) + (b[2] * Exp(-b[3] * x)) + (b[4] * Exp(-b[5] * x)),
        "Gauss1" or "Gauss2" or "Gauss3" => (x, _, b) => (b[0] * Exp(-b[1] * x)) + (b[2] * Exp(-Square((x - b[3]) / b[4]))) + (b[5] * Exp(-Square((x - b[6]) / b[7]))),
        "DanWood" => (x, _, b) => b[0] * Power(x, b[1]),
        "Kirby2" => (x, _, b) => (b[0] + (b[1] * x) + (b[2] * (x * x))) / (1 + (b[3] * x) + (b[4] * (x * x))),
        "Hahn1" or "Thurber" => (x, _, b) => (b[0] + (b[1] * x) + (b[2] * (x * x)) + (b[3] * (x * x * x))) / (1 + (b[4] * x) + (b[5] * (x * x)) + (b[6] * (x * x * x))),
        "Nelson" => (x1, x2, b) => b[0] - (b[1] * x1 * Exp(-b[2] * x2)),
        "MGH17" => (x, _, b) => b[0] + (b[1] * Exp(-b[3] * x)) + (b[2] * Exp(-b[4] * x)),
        "Roszman1" => (x, _, b) => b[0] - (b[1] * x) - (Atan(b[2] / (x - b[3])) / Pi),
        "ENSO" => (x, _, b) => b[0] + (b[1] * Math.Cos(2 * Pi * x / 12)) + (b[2] * Math.Sin(2 * Pi * x / 12)) + Cycle(x, b[3], b[4], b[5]) + Cycle(x, b[6], b[7], b[8]),
        "MGH09" => (x, _, b) => b[0] * ((x * x) + (x * b[1])) / ((x * x) + (x * b[2]) + b[3]),
        "Rat42" => (x, _, b) => b[0] / (1 + Exp(b[1] - (b[2] * x))),
        "Rat43" => (x, _, b) => b[0] / Power(1 + Exp(b[1] - (b[2] * x)), 1 / b[3]),
        "MGH10" => (x, _, b) => b[0] * Exp(b[1] / (x + b[2])),
        "Eckerle4" => (x, _, b) => b[0] / b[1] * Exp(-0.5 * Square((x - b[2]) / b[1])),
        "Bennett5" => (x, _, b) => b[0] * Power(b[1] + x, -1 / b[2]),
        _ => throw new ArgumentOutOfRangeException(nameof(dataset), dataset, "No such data set."),
    };

    private static Dual Cycle(double x, Dual period, Dual cosine, Dual sine) =>
        (cosine * Cos(2 * Pi * x / period)) + (sine * Sin(2 * Pi * x / period));
}
