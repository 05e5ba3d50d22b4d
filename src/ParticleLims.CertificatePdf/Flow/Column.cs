namespace ParticleLims.CertificatePdf.Flow;

/// <summary>How the cells of a column stand.</summary>
internal enum Setting
{
    /// <summary>From the left, wrapped.</summary>
    Text,

    /// <summary>Numbers with their decimal points one below the other.</summary>
    Number,
}

/// <summary>A column of a table: its head, its width in points and how its cells stand.</summary>
internal sealed record Column(string Head, double Width, Setting Setting, Lettering Lettering)
{
    /// <summary>Free space at the left of a text, to keep it off the numbers before it.</summary>
    public double Inset { get; init; }
}

/// <summary>A cell: its text, and a sign before it where the text carries a verdict.</summary>
internal sealed record Cell(string Text, Lettering? Lettering = null, Sign Sign = Sign.None);

/// <summary>A small sign before a text; the text says the same in words.</summary>
internal enum Sign
{
    /// <summary>No sign.</summary>
    None,

    /// <summary>A disc: it conforms.</summary>
    Disc,

    /// <summary>A triangle: it needs attention.</summary>
    Triangle,
}
