using System.Text;
using ParticleLims.Analysis.Quantities;
using ParticleLims.Instruments.Readings;

namespace ParticleLims.Instruments.Tests.Connections;

/// <summary>Lines with check characters, good and damaged in every way that a cable knows, in pieces of any size. The same seed gives the same bytes.</summary>
internal sealed class DamagedStream
{
    private readonly Random _random;

    public DamagedStream(int seed, int lines)
    {
        _random = new Random(seed);
        for (var i = 0; i < lines; i++)
        {
            Lines.Add(Next());
        }

        // Two ends of a line close whatever was under way, so that the last line is whole.
        Lines.AddRange(["\r\n", "\r\n", Good(Last)]);
    }

    public static Mass Last { get; } = Mass.FromGrams(999.9999m);

    public List<string> Lines { get; } = [];

    /// <summary>The masses that good lines carry.</summary>
    public HashSet<Mass> Sent { get; } = [];

    /// <summary>All bytes in pieces.</summary>
    public IEnumerable<byte[]> Pieces()
    {
        var all = Encoding.Latin1.GetBytes(string.Concat(Lines));
        for (var start = 0; start < all.Length;)
        {
            var length = Math.Min(_random.Next(1, 300), all.Length - start);
            yield return all[start..(start + length)];
            start += length;
        }
    }

    private string Next()
    {
        var line = Good(Mass.FromMicrograms(_random.NextInt64(0, 9_000_000) * 100));
        return _random.Next(10) switch
        {
            0 => line,
            1 => line[..^2],
            2 => line[_random.Next(line.Length)..],
            3 => line[..^2] + (_random.Next(2) == 0 ? "\r" : "\n"),
            4 => line.Insert(_random.Next(line.Length), "\0"),
            5 => new string((char)_random.Next(256), _random.Next(500, 3_000)) + "\r\n",
            6 => Binary() + "\r\n",
            7 => line.Remove(_random.Next(line.Length - 2), 1),
            8 => line.Insert(_random.Next(line.Length - 2), ((char)('0' + _random.Next(10))).ToString()),
            _ => Changed(line),
        };
    }

    private string Binary()
    {
        var bytes = new byte[_random.Next(100)];
        _random.NextBytes(bytes);
        return Encoding.Latin1.GetString(bytes);
    }

    private string Changed(string line)
    {
        var place = _random.Next(line.Length - 2);
        return line[..place] + (char)(line[place] ^ (1 << _random.Next(7))) + line[(place + 1)..];
    }

    private string Good(Mass mass)
    {
        Sent.Add(mass);
        return PlainLine.Write(mass, 4, stable: true, "0417", checksum: true) + "\r\n";
    }
}
