namespace ParticleLims.Instruments.Readings;

/// <summary>
/// The way from bytes to readings, the same for every kind of link: assemble lines, refuse what may be cut, parse. One for
/// each time the link is made. Not thread-safe.
/// </summary>
public sealed class ReadingPipeline
{
    private readonly ReadingFormat _format;
    private readonly string? _expectedSerial;
    private readonly LineAssembler _assembler;
    private bool _nextMayBeCut;

    /// <summary>A pipeline for one link.</summary>
    /// <param name="format">How the balance writes.</param>
    /// <param name="expectedSerial">The serial number that each line must carry; null to accept any.</param>
    /// <param name="cut">Whether the first line may be cut although the format says otherwise, as after missing bytes.</param>
    public ReadingPipeline(ReadingFormat format, string? expectedSerial = null, bool cut = false)
    {
        ArgumentNullException.ThrowIfNull(format);
        (_format, _expectedSerial, _nextMayBeCut) = (format, expectedSerial, cut || format.FirstLineMayBeCut);
        _assembler = new LineAssembler(format.LineTerminator, format.MaxLineLength);
    }

    /// <summary>Adds bytes and gives back what the lines completed by them turned out to be.</summary>
    public IReadOnlyList<BalanceLine> Add(ReadOnlySpan<byte> bytes, DateTimeOffset at)
    {
        var lines = _assembler.Add(bytes);
        return lines.Count == 0 ? [] : [.. lines.Select(line => Judge(line, at))];
    }

    /// <summary>The link has ended: gives back the piece of a line that was under way, if any, as refused.</summary>
    public RejectedLine? End(DateTimeOffset at) => _assembler.TakeRest() is { } rest
        ? new RejectedLine(RejectionCode.Partial, "The link ended in the middle of the line.", RawText.Printable(rest), at)
        : null;

    private BalanceLine Judge(string line, DateTimeOffset at)
    {
        if (!_nextMayBeCut)
        {
            return _format.Parse(line, at, _expectedSerial);
        }

        _nextMayBeCut = false;
        return new RejectedLine(
            RejectionCode.Partial, "The first line after connecting may be cut short and is not used.", RawText.Printable(line), at);
    }
}
