using System.Text;

namespace ParticleLims.Instruments.Readings;

/// <summary>
/// Puts bytes together to lines, however they were cut on the way, and never holds more than the longest line: what is
/// longer is thrown away up to the next terminator and given back once, marked as too long. Not thread-safe.
/// </summary>
public sealed class LineAssembler
{
    private readonly string _terminator;
    private readonly int _maxLength;
    private readonly StringBuilder _line = new();

    /// <summary>An assembler for lines of at most <paramref name="maxLength"/> characters.</summary>
    /// <param name="terminator">What ends a line, at least one character.</param>
    /// <param name="maxLength">The longest line, without its terminator; from 1.</param>
    public LineAssembler(string terminator, int maxLength)
    {
        ArgumentException.ThrowIfNullOrEmpty(terminator);
        ArgumentOutOfRangeException.ThrowIfLessThan(maxLength, 1);
        (_terminator, _maxLength) = (terminator, maxLength);
    }

    /// <summary>
    /// Adds bytes and gives back the lines that they complete, one character for each byte. A line that is too long comes
    /// back as its first characters, one more than allowed, so that whoever checks the length refuses it.
    /// </summary>
    public IReadOnlyList<string> Add(ReadOnlySpan<byte> bytes)
    {
        List<string> lines = [];
        foreach (var character in Encoding.Latin1.GetString(bytes))
        {
            _line.Append(character);
            if (EndsWithTerminator())
            {
                lines.Add(TakeLine());
            }
            else if (_line.Length > _maxLength + _terminator.Length)
            {
                DropMiddle();
            }
        }

        return lines;
    }

    /// <summary>Gives back what stands after the last terminator, null if nothing does, and starts anew.</summary>
    public string? TakeRest()
    {
        var rest = _line.Length == 0 ? null : _line.ToString();
        _line.Clear();
        return rest;
    }

    private bool EndsWithTerminator()
    {
        var start = _line.Length - _terminator.Length;
        for (var i = 0; i < _terminator.Length; i++)
        {
            if (start < 0 || _line[start + i] != _terminator[i])
            {
                return false;
            }
        }

        return true;
    }

    private string TakeLine()
    {
        var line = _line.ToString(0, _line.Length - _terminator.Length);
        _line.Clear();
        return line;
    }

    // Keeps the first characters for the record and the last ones in which a terminator may just be arriving.
    private void DropMiddle() => _line.Remove(_maxLength + 1, 1);
}
