namespace ParticleLims.Instruments.Readings;

/// <summary>The mark between the whole and the broken part of a number.</summary>
public enum DecimalMark
{
    /// <summary>A point, as in 312.3450.</summary>
    Point,

    /// <summary>A comma, as in 312,3450.</summary>
    Comma,
}

/// <summary>What a line without a stability mark means.</summary>
public enum UnmarkedLine
{
    /// <summary>It gives no mass.</summary>
    Refused,

    /// <summary>The reading is stable, as with a balance that sends only stable readings.</summary>
    Stable,

    /// <summary>The reading is unstable.</summary>
    Unstable,
}

/// <summary>How a line proves that it arrived as it was sent.</summary>
public enum LineChecksum
{
    /// <summary>It does not.</summary>
    None,

    /// <summary>
    /// The group <c>check</c> holds four upper-case hexadecimal digits: the <see cref="Crc16"/> of all characters before it.
    /// </summary>
    Crc16,
}
