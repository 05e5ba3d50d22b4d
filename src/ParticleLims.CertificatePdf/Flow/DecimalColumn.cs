namespace ParticleLims.CertificatePdf.Flow;

/// <summary>Where the numbers of a column begin, so that their decimal points stand one below the other.</summary>
internal sealed class DecimalColumn
{
    private readonly Typesetter _type;
    private readonly double _widestFraction;
    private readonly double _widestWhole;

    public DecimalColumn(Typesetter type, IEnumerable<(string Text, Lettering Lettering)> cells)
    {
        _type = type;
        foreach (var (text, lettering) in cells.Where(cell => IsNumber(cell.Text)))
        {
            var (whole, fraction) = Parts(text);
            _widestWhole = Math.Max(_widestWhole, type.Width(whole, lettering));
            _widestFraction = Math.Max(_widestFraction, type.Width(fraction, lettering));
        }
    }

    public double Width => _widestWhole + _widestFraction;

    /// <summary>The left end of a text in a column whose right edge is given.</summary>
    public double Left(string text, Lettering lettering, double right)
    {
        if (!IsNumber(text))
        {
            return right - _type.Width(text, lettering);
        }

        return right - _widestFraction - _type.Width(Parts(text).Whole, lettering);
    }

    private static bool IsNumber(string text) => text.Any(char.IsAsciiDigit);

    private static (string Whole, string Fraction) Parts(string text)
    {
        var point = text.LastIndexOfAny(['.', ',']);
        return point < 0 ? (text, string.Empty) : (text[..point], text[point..]);
    }
}
