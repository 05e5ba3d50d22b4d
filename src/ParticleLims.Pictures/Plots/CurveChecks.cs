namespace ParticleLims.Pictures.Plots;

/// <summary>Refuses numbers that have no place in a picture, before anything is drawn.</summary>
internal static class CurveChecks
{
    // Far beyond any quantity, and near enough that no arithmetic of a scale overflows.
    private const double Largest = 1e100;
    private const double Smallest = 1e-100;

    public static void Check(DistributionCurve curve)
    {
        CheckPoints(curve.Points);
        foreach (var other in curve.Others)
        {
            CheckPoints(other.Points);
        }

        foreach (var gate in curve.Gates)
        {
            CheckGate(gate);
        }

        foreach (var mark in curve.Percentiles)
        {
            Size(mark.Micrometres, mark.Label);
            Percent(mark.PassingPercent, mark.Label);
            if (mark.Interval is { } interval)
            {
                Size(interval.FromMicrometres, mark.Label);
                Size(interval.ToMicrometres, mark.Label);
            }
        }

        CheckPoints(curve.Between);
        if (curve.Model is { } model)
        {
            CheckLine(model);
        }
    }

    public static void CheckLine(FittedLine line)
    {
        Size(line.SizeMicrometres, "the position");
        Size(line.Slope, "the slope");
    }

    public static void CheckPoints(IReadOnlyList<CurvePoint> points)
    {
        foreach (var point in points)
        {
            Size(point.ApertureMicrometres, "a point's aperture");
            Finite(point.PassingPercent, "a point's passing");
            Uncertainty(point.StandardUncertaintyPercent);
            Uncertainty(point.ApertureStandardUncertaintyMicrometres);
        }
    }

    public static void Uncertainty(double? uncertainty)
    {
        if (uncertainty is { } given && (!double.IsFinite(given) || given < 0))
        {
            throw new ArgumentOutOfRangeException(nameof(uncertainty), given, "A standard uncertainty is not negative.");
        }
    }

    public static void Finite(double value, string what)
    {
        if (!double.IsFinite(value) || Math.Abs(value) > Largest)
        {
            throw new ArgumentOutOfRangeException(what, value, "Only a finite number below 1e100 can be drawn.");
        }
    }

    public static void Size(double value, string what)
    {
        if (value is not (>= Smallest and <= Largest))
        {
            throw new ArgumentOutOfRangeException(what, value, "Only a value above zero, from 1e-100 to 1e100, has a place on a logarithmic scale.");
        }
    }

    private static void CheckGate(CurveGate gate)
    {
        if (gate.ApertureMicrometres.HasValue == gate.PassingPercent.HasValue)
        {
            throw new ArgumentException($"The limit '{gate.Label}' stands either at an aperture or at a percentage.", nameof(gate));
        }

        if (gate.Lower is null && gate.Upper is null)
        {
            throw new ArgumentException($"The limit '{gate.Label}' has neither a lower nor an upper bound.", nameof(gate));
        }

        Action<double, string> checkPlace = gate.ApertureMicrometres.HasValue ? Size : Percent;
        Action<double, string> checkBound = gate.ApertureMicrometres.HasValue ? Percent : Size;
        checkPlace((gate.ApertureMicrometres ?? gate.PassingPercent)!.Value, gate.Label);
        foreach (var bound in new[] { gate.Lower, gate.Upper }.OfType<double>())
        {
            checkBound(bound, gate.Label);
        }
    }

    private static void Percent(double value, string what)
    {
        if (value is not (>= 0 and <= 100))
        {
            throw new ArgumentOutOfRangeException(what, value, "A percentage lies between 0 and 100.");
        }
    }
}
