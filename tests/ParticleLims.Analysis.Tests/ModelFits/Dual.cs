namespace ParticleLims.Analysis.Tests.ModelFits;

/// <summary>A number with its derivatives, so that a published model is written once and its derivatives follow exactly.</summary>
internal sealed record Dual(double Value, double[] Slopes)
{
    public static Dual Parameter(double value, int index, int count)
    {
        var slopes = new double[count];
        slopes[index] = 1;
        return new Dual(value, slopes);
    }

    public static Dual operator +(Dual a, Dual b) => Of(a.Value + b.Value, a, 1, b, 1);

    public static Dual operator +(Dual a, double b) => Of(a.Value + b, a, 1);

    public static Dual operator +(double a, Dual b) => b + a;

    public static Dual operator -(Dual a, Dual b) => Of(a.Value - b.Value, a, 1, b, -1);

    public static Dual operator -(Dual a, double b) => a + -b;

    public static Dual operator -(double a, Dual b) => Of(a - b.Value, b, -1);

    public static Dual operator -(Dual a) => Of(-a.Value, a, -1);

    public static Dual operator *(Dual a, Dual b) => Of(a.Value * b.Value, a, b.Value, b, a.Value);

    public static Dual operator *(Dual a, double b) => Of(a.Value * b, a, b);

    public static Dual operator *(double a, Dual b) => b * a;

    public static Dual operator /(Dual a, Dual b) => Of(a.Value / b.Value, a, 1 / b.Value, b, -a.Value / (b.Value * b.Value));

    public static Dual operator /(Dual a, double b) => Of(a.Value / b, a, 1 / b);

    public static Dual operator /(double a, Dual b) => Of(a / b.Value, b, -a / (b.Value * b.Value));

    public static Dual Exp(Dual a) => Of(Math.Exp(a.Value), a, Math.Exp(a.Value));

    public static Dual Log(Dual a) => Of(Math.Log(a.Value), a, 1 / a.Value);

    public static Dual Atan(Dual a) => Of(Math.Atan(a.Value), a, 1 / (1 + (a.Value * a.Value)));

    public static Dual Sin(Dual a) => Of(Math.Sin(a.Value), a, Math.Cos(a.Value));

    public static Dual Cos(Dual a) => Of(Math.Cos(a.Value), a, -Math.Sin(a.Value));

    public static Dual Square(Dual a) => a * a;

    public static Dual Power(Dual a, Dual b) => Exp(b * Log(a));

    public static Dual Power(double a, Dual b) => Exp(b * Math.Log(a));

    private static Dual Of(double value, Dual a, double ofA) => new(value, Array.ConvertAll(a.Slopes, slope => slope * ofA));

    private static Dual Of(double value, Dual a, double ofA, Dual b, double ofB) =>
        new(value, a.Slopes.Zip(b.Slopes, (left, right) => (left * ofA) + (right * ofB)).ToArray());
}
