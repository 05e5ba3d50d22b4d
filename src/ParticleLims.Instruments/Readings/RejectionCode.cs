namespace ParticleLims.Instruments.Readings;

/// <summary>Why a line gives no mass.</summary>
public enum RejectionCode
{
    /// <summary>Nothing stands between two terminators.</summary>
    Empty,

    /// <summary>The line is longer than the format allows.</summary>
    TooLong,

    /// <summary>The line holds a character outside printable ASCII.</summary>
    NotAscii,

    /// <summary>The line may be cut: it was the first after connecting, or the link ended inside it.</summary>
    Partial,

    /// <summary>The line has not the shape of the format.</summary>
    Unreadable,

    /// <summary>The check characters do not belong to this line.</summary>
    ChecksumWrong,

    /// <summary>The line comes from another balance than the one expected.</summary>
    WrongSerial,

    /// <summary>The balance says that it is loaded above its capacity.</summary>
    Overload,

    /// <summary>The balance says that it is below its range, as with the pan lifted off.</summary>
    Underload,

    /// <summary>The format does not say what the line's stability mark means.</summary>
    UnknownMark,

    /// <summary>The unit is missing or not one that the format admits.</summary>
    WrongUnit,

    /// <summary>The decimal mark is a comma where a point is due, or the reverse.</summary>
    DecimalMark,

    /// <summary>Where the value is due stands something that is no plain number.</summary>
    NotANumber,

    /// <summary>The value shows digits finer than one microgram.</summary>
    TooFine,

    /// <summary>More came at once than a balance sends.</summary>
    TooMuch,

    /// <summary>The pattern of the format took too long over this line.</summary>
    TooSlow,
}
