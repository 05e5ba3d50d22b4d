using System.Runtime.CompilerServices;

namespace ParticleLims.Instruments.Readings;

/// <summary>
/// How a balance writes a reading in one line of text. It is data: the laboratory keeps one for each kind of balance.
/// Two formats with the same data are equal.
/// </summary>
public sealed record ReadingFormat
{
    private static readonly ConditionalWeakTable<ReadingFormat, ReadingParser> Parsers = [];

    /// <summary>The name under which the laboratory knows the format.</summary>
    public required string Name { get; init; }

    /// <summary>
    /// A regular expression for a whole line. It must name the groups <c>value</c> (digits and one decimal mark, blanks
    /// before it allowed, no sign) and <c>unit</c>; it may name <c>sign</c> (plus, minus or nothing), <c>stable</c> (the mark
    /// that tells stability or overload), <c>serial</c> and <c>check</c>. It is matched without backtracking and at most 400
    /// characters long; what could make it slow or large, such as look-around and back references, is refused.
    /// </summary>
    public required string Pattern { get; init; }

    /// <summary>Marks in the group <c>stable</c> that call a reading stable, separated by blanks.</summary>
    public string StableMarks { get; init; } = "";

    /// <summary>Marks in the group <c>stable</c> that call a reading unstable, separated by blanks.</summary>
    public string UnstableMarks { get; init; } = "";

    /// <summary>Marks in the group <c>stable</c> that mean overload, separated by blanks.</summary>
    public string OverloadMarks { get; init; } = "";

    /// <summary>Marks in the group <c>stable</c> that mean underload, separated by blanks.</summary>
    public string UnderloadMarks { get; init; } = "";

    /// <summary>What a line without any mark means; unless the format says so it is refused.</summary>
    public UnmarkedLine Unmarked { get; init; } = UnmarkedLine.Refused;

    /// <summary>
    /// The units admitted, separated by blanks; case matters. <c>g</c>, <c>mg</c> and <c>kg</c> are known, any other stands with
    /// its grams, as in <c>ct=0.2</c>: 0.000001 g to 1000 g.
    /// </summary>
    public string Units { get; init; } = "g mg kg";

    /// <summary>The decimal mark of the value; the other one is refused, never converted.</summary>
    public DecimalMark DecimalMark { get; init; } = DecimalMark.Point;

    /// <summary>How the group <c>check</c> proves the line; with a checksum set, a line without it is refused.</summary>
    public LineChecksum Checksum { get; init; } = LineChecksum.None;

    /// <summary>
    /// Whether the balance sends one line for each press of its print key and is silent between: then one stable line is a weighing, and
    /// no stream of lines shows that the pan was cleared.
    /// </summary>
    public bool EachLineIsPrint { get; init; }

    /// <summary>What ends a line, 1 to 4 characters.</summary>
    public string LineTerminator { get; init; } = "\r\n";

    /// <summary>The longest line accepted, 8 to 512 characters without the terminator.</summary>
    public int MaxLineLength { get; init; } = 80;

    /// <summary>
    /// Whether the first line after connecting may be cut because the balance was in the middle of it; it is then refused.
    /// </summary>
    public bool FirstLineMayBeCut { get; init; } = true;

    /// <summary>The command that asks for a reading, without terminator; null when the balance sends by itself.</summary>
    public string? RequestCommand { get; init; }

    /// <summary>What is sent after the command, up to 4 characters.</summary>
    public string CommandTerminator { get; init; } = "\r\n";

    /// <summary>How often the command is sent; null to send it never by itself.</summary>
    public TimeSpan? RequestEvery { get; init; }

    /// <summary>
    /// After so long without a line the link counts as lost; null for a balance that is silent until somebody presses its key.
    /// </summary>
    public TimeSpan? SilenceLimit { get; init; }

    /// <summary>
    /// Whether the lines say which balance they come from, by the group <c>serial</c>. Where they do not, another balance at the same
    /// address goes unnoticed.
    /// </summary>
    public bool TellsSerial => Pattern.Contains("(?<serial>", StringComparison.Ordinal);

    /// <summary>What is wrong with this format, in words for the administrator; empty when it can be used.</summary>
    public IReadOnlyList<string> Problems() => ReadingFormatRules.ProblemsOf(this);

    /// <summary>Reads one line without its terminator. Never throws because of the line.</summary>
    /// <param name="line">The line as it came.</param>
    /// <param name="at">When it was complete.</param>
    /// <param name="expectedSerial">The serial number that the line must carry where the format <see cref="TellsSerial"/>; null to accept any.</param>
    /// <exception cref="InvalidOperationException">The format itself cannot be used; see <see cref="Problems"/>.</exception>
    public BalanceLine Parse(string line, DateTimeOffset at, string? expectedSerial = null)
    {
        ArgumentNullException.ThrowIfNull(line);
        return Parsers.GetValue(this, static format => new ReadingParser(format)).Parse(line, at, expectedSerial) with { IsPrint = EachLineIsPrint };
    }
}
