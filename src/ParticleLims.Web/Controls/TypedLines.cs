namespace ParticleLims.Web.Controls;

/// <summary>A line that a device typed as keys.</summary>
/// <param name="Text">The line without its end.</param>
/// <param name="MayBeCut">Whether keys were dropped shortly before it, which may have been its beginning.</param>
public sealed record TypedLine(string Text, bool MayBeCut = false);

/// <summary>
/// The lines that a device types as keys on this screen. A balance looks at each first: a line of its shape is a reading and nothing else; every
/// other line is a code for whoever waits for one. One for each screen.
/// </summary>
public sealed class TypedLines
{
    /// <summary>The longest line that is looked at, in characters.</summary>
    public const int Longest = 600;

    private readonly List<Func<TypedLine, bool>> first = [];
    private (long Number, bool Taken) last = (0, false);

    /// <summary>Looks at each line first, until the answer is disposed.</summary>
    /// <param name="takes">Takes a line and says so, or leaves it.</param>
    public IDisposable LookFirst(Func<TypedLine, bool> takes)
    {
        ArgumentNullException.ThrowIfNull(takes);
        first.Add(takes);
        return new Leaving(() => first.Remove(takes));
    }

    /// <summary>Whether a line is left for whoever waits for a code. However many parts of the page hear it, it is looked at once.</summary>
    /// <param name="line">The line.</param>
    /// <param name="number">The browser's number of the line.</param>
    public bool IsLeft(TypedLine line, long number)
    {
        ArgumentNullException.ThrowIfNull(line);
        if (line.Text.Length is 0 or > Longest)
        {
            return false;
        }

        if (number != last.Number)
        {
            last = (number, first.ToArray().Any(takes => takes(line)));
        }

        return !last.Taken;
    }

    private sealed class Leaving(Action leave) : IDisposable
    {
        public void Dispose() => leave();
    }
}
