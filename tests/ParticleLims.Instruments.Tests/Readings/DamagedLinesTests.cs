using System.Globalization;
using System.Text;
using ParticleLims.Analysis.Quantities;
using ParticleLims.Instruments.Readings;
using Shouldly;
using Xunit;

namespace ParticleLims.Instruments.Tests.Readings;

public sealed class DamagedLinesTests
{
    private static readonly DateTimeOffset At = new(2026, 3, 2, 8, 15, 0, TimeSpan.Zero);

    [Fact]
    public void Of_ten_thousand_damaged_lines_with_checksum_none_gives_another_mass()
    {
        var random = new Random(20260302);
        var (read, refused) = (0, 0);
        for (var i = 0; i < 10_000; i++)
        {
            var mass = Mass.FromMicrograms(random.NextInt64(-1_000_000_000, 1_000_000_000) / 100 * 100);
            var line = PlainLine.Write(mass, 4, random.Next(2) == 0, "0417", checksum: true);
            var damaged = Damage(line, random);
            if (PlainLine.FormatWithChecksum.Parse(damaged, At) is BalanceReading reading)
            {
                reading.Mass.ShouldBe(mass, damaged);
                read++;
            }
            else
            {
                refused++;
            }
        }

        // The damage sometimes leaves the line as it was, which shows that the loop reads good lines too.
        refused.ShouldBeGreaterThan(9_000);
        read.ShouldBeGreaterThan(0);
    }

    [Fact]
    public void Of_ten_thousand_damaged_lines_without_checksum_each_is_refused_or_read_as_it_is_written()
    {
        var random = new Random(20260303);
        var read = 0;
        for (var i = 0; i < 10_000; i++)
        {
            var mass = Mass.FromMicrograms(random.NextInt64(-1_000_000_000, 1_000_000_000) / 100 * 100);
            var damaged = Damage(PlainLine.Write(mass, 4, random.Next(2) == 0, "0417", checksum: false), random);
            if (PlainLine.Format.Parse(damaged, At) is BalanceReading reading)
            {
                ShouldSayWhatTheLineSays(reading, damaged);
                read++;
            }
        }

        read.ShouldBeGreaterThan(500);
    }

    [Fact]
    public void Every_single_wrong_character_is_found_by_the_checksum()
    {
        var line = PlainLine.Write(Mass.FromGrams(312.345m), 4, stable: true, "0417", checksum: true);
        for (var place = 0; place < line.Length; place++)
        {
            for (var wrong = ' '; wrong <= '~'; wrong++)
            {
                var damaged = line[..place] + wrong + line[(place + 1)..];
                var expected = string.Equals(damaged, line, StringComparison.Ordinal) ? typeof(BalanceReading) : typeof(RejectedLine);
                PlainLine.FormatWithChecksum.Parse(damaged, At).GetType().ShouldBe(expected, damaged);
            }
        }
    }

    [Fact]
    public void Any_bytes_at_all_pass_the_pipeline_without_an_exception_and_without_a_mass()
    {
        var random = new Random(20260304);
        var pipeline = new ReadingPipeline(PlainLine.FormatWithChecksum);
        var lines = 0;
        for (var i = 0; i < 2_000; i++)
        {
            var bytes = new byte[random.Next(200)];
            random.NextBytes(bytes);
            bytes.AsSpan().Replace((byte)0x40, (byte)'\r');
            foreach (var line in pipeline.Add([.. bytes, .. random.Next(3) == 0 ? "\r\n"u8 : []], At))
            {
                line.ShouldBeOfType<RejectedLine>();
                line.RawLine.Length.ShouldBeLessThan(600 * 4);
                lines++;
            }
        }

        lines.ShouldBeGreaterThan(500);
    }

    // An independent reading of the plain line, by position: mark, sign, eleven characters, unit.
    private static void ShouldSayWhatTheLineSays(BalanceReading reading, string line)
    {
        var grams = decimal.Parse(line[3..14].Trim(' '), NumberStyles.AllowDecimalPoint, CultureInfo.InvariantCulture);
        var perGram = line[15..].Split(' ')[0] switch { "g" => 1m, "mg" => 0.001m, "kg" => 1000m, _ => 0m };
        reading.Mass.Grams.ShouldBe((line[2] == '-' ? -grams : grams) * perGram, line);
        reading.Stable.ShouldBe(line[0] == 'S', line);
        reading.RawLine.ShouldBe(line);
    }

    private static string Damage(string line, Random random)
    {
        var text = new StringBuilder(line);
        for (var blows = random.Next(1, 4); blows > 0 && text.Length > 0; blows--)
        {
            Blow(text, random);
        }

        return text.ToString();
    }

    private static void Blow(StringBuilder text, Random random)
    {
        var place = random.Next(text.Length);
        switch (random.Next(7))
        {
            case 0:
                text[place] = (char)random.Next(' ', 127);
                break;
            case 1:
                text[place] = (char)('0' + random.Next(10));
                break;
            case 2:
                text[place] = (char)(text[place] ^ (1 << random.Next(8)));
                break;
            case 3:
                text.Remove(place, random.Next(1, text.Length - place + 1));
                break;
            case 4:
                text.Remove(0, place);
                break;
            case 5:
                text.Insert(place, (char)random.Next(0, 256));
                break;
            default:
                (text[place], text[^1]) = (text[^1], text[place]);
                break;
        }
    }
}
