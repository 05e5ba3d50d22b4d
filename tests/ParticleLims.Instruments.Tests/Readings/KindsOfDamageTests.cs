using CsCheck;
using ParticleLims.Analysis.Quantities;
using ParticleLims.Instruments.Readings;
using Shouldly;
using Xunit;

namespace ParticleLims.Instruments.Tests.Readings;

/// <summary>
/// Ten thousand damaged lines of each kind and format. Whatever changes the shape of a line is refused; damage that leaves a whole line with
/// other digits cannot be seen in a line without check characters, and how often that happens is measured here.
/// </summary>
public sealed class KindsOfDamageTests
{
    private const int Lines = 10_000;
    private static readonly DateTimeOffset At = new(2026, 3, 2, 8, 15, 0, TimeSpan.Zero);

    private static readonly ReadingFormat FreeWidth = new()
    {
        Name = "free width",
        Pattern = @"(?<sign>[+-]?)(?<value>[0-9,.]+) (?<unit>[a-z]+) (?<stable>[!?])",
        StableMarks = "!",
        UnstableMarks = "?",
        DecimalMark = DecimalMark.Comma,
    };

    /// <summary>Format, kind of damage, and the most lines of ten thousand that may give another mass.</summary>
    public static TheoryData<string, string, int> Kinds => new()
    {
        { "plain", nameof(CutAtTheEnd), 0 },
        { "plain", nameof(CutAtTheFront), 0 },
        { "plain", nameof(TwoRunTogether), 0 },
        { "plain", nameof(OtherUnit), 0 },
        { "plain", nameof(OtherDecimalMark), 0 },
        { "plain", nameof(NulInside), 0 },
        { "plain", nameof(VeryLong), 0 },
        { "plain", nameof(BitFlipped), 1_100 },
        { "plain", nameof(Spliced), 6_500 },
        { "checked", nameof(CutAtTheEnd), 0 },
        { "checked", nameof(CutAtTheFront), 0 },
        { "checked", nameof(TwoRunTogether), 0 },
        { "checked", nameof(OtherUnit), 0 },
        { "checked", nameof(OtherDecimalMark), 0 },
        { "checked", nameof(NulInside), 0 },
        { "checked", nameof(VeryLong), 0 },
        { "checked", nameof(BitFlipped), 0 },
        { "checked", nameof(Spliced), 2 },
        { "free", nameof(CutAtTheEnd), 0 },
        { "free", nameof(TwoRunTogether), 0 },
        { "free", nameof(OtherUnit), 0 },
        { "free", nameof(OtherDecimalMark), 0 },
        { "free", nameof(NulInside), 0 },
        { "free", nameof(VeryLong), 0 },
        { "free", nameof(CutAtTheFront), 5_200 },
    };

    [Theory]
    [MemberData(nameof(Kinds))]
    public void A_damaged_line_gives_another_mass_only_where_the_damage_makes_a_valid_line(string formatName, string kind, int most)
    {
        var random = new Random(20260305);
        var format = FormatOf(formatName);
        var (refused, same, other) = (0, 0, 0);
        for (var i = 0; i < Lines; i++)
        {
            var (mass, line) = Write(random, formatName);
            var damaged = Damage(kind, line, Write(random, formatName).Line, random);
            damaged.ShouldNotBe(line);
            switch (format.Parse(damaged, At))
            {
                case BalanceReading reading:
                    reading.RawLine.ShouldBe(damaged);
                    _ = reading.Mass == mass ? same++ : other++;
                    break;
                case RejectedLine rejected:
                    rejected.Reason.ShouldNotBeNullOrWhiteSpace();
                    refused++;
                    break;
            }
        }

        other.ShouldBeLessThanOrEqualTo(most, $"{refused} refused, {same} with the same mass, {other} with another");
        (refused + same + other).ShouldBe(Lines);
        TestContext.Current.TestOutputHelper?.WriteLine($"{formatName}, {kind}: {refused} refused, {same} the same mass, {other} another mass");
    }

    [Fact]
    public void A_line_of_free_width_that_lost_its_front_looks_whole_so_the_first_line_of_a_link_is_not_used()
    {
        FreeWidth.Parse("12,345 g !", At).ShouldBeOfType<BalanceReading>().Mass.Grams.ShouldBe(12.345m);
        var first = new ReadingPipeline(FreeWidth).Add("12,345 g !\r\n"u8, At);
        first.ShouldHaveSingleItem().ShouldBeOfType<RejectedLine>().Code.ShouldBe(RejectionCode.Partial);
    }

    [Fact]
    public void Any_text_is_read_or_refused_by_any_format_and_nothing_is_thrown() =>
        Gen.Select(Gen.String, Gen.Int[0, 2]).Sample((line, which) =>
        {
            var judged = FormatOf(((string[])["plain", "checked", "free"])[which]).Parse(line, At, "0417");
            return judged is BalanceReading { RawLine: var kept } ? kept == line : judged is RejectedLine { Reason.Length: > 0 };
        }, iter: Lines);

    private static ReadingFormat FormatOf(string name) => name switch { "plain" => PlainLine.Format, "checked" => PlainLine.FormatWithChecksum, _ => FreeWidth };

    private static (Mass Mass, string Line) Write(Random random, string formatName)
    {
        var mass = Mass.FromMicrograms(random.NextInt64(1_000, 1_000_000_000) / 1_000 * 1_000);
        var plain = PlainLine.Write(mass, 3, stable: true, "0417", checksum: formatName == "checked");
        return (mass, formatName == "free" ? plain[3..14].Trim(' ').Replace('.', ',') + " g !" : plain);
    }

    private static string Damage(string kind, string line, string other, Random random) => kind switch
    {
        nameof(CutAtTheEnd) => CutAtTheEnd(line, random),
        nameof(CutAtTheFront) => CutAtTheFront(line, random),
        nameof(TwoRunTogether) => TwoRunTogether(line, other),
        nameof(OtherUnit) => OtherUnit(line, random),
        nameof(OtherDecimalMark) => OtherDecimalMark(line),
        nameof(NulInside) => NulInside(line, random),
        nameof(VeryLong) => VeryLong(line, random),
        nameof(BitFlipped) => BitFlipped(line, random),
        _ => Spliced(line, other, random),
    };

    private static string CutAtTheEnd(string line, Random random) => line[..random.Next(line.Length)];

    private static string CutAtTheFront(string line, Random random) => line[random.Next(1, line.Length)..];

    private static string TwoRunTogether(string line, string other) => line + other;

    private static string OtherUnit(string line, Random random) =>
        line.Replace(" g ", $" {((string[])["oz", "lb", "ct", "G", "gg", "%", "pcs", "", "kgf"])[random.Next(9)]} ", StringComparison.Ordinal);

    private static string OtherDecimalMark(string line) =>
        line.Contains('.', StringComparison.Ordinal) ? line.Replace('.', ',') : line.Replace(',', '.');

    private static string NulInside(string line, Random random) => line.Insert(random.Next(line.Length + 1), "\0");

    private static string VeryLong(string line, Random random) => line.Insert(random.Next(line.Length + 1), new string('0', random.Next(100, 5_000)));

    private static string BitFlipped(string line, Random random)
    {
        var place = random.Next(line.Length);
        return line[..place] + (char)(line[place] ^ (1 << random.Next(8))) + line[(place + 1)..];
    }

    // The front of one line and the end of the next, as when bytes between them were lost; where that is one of the two, a cut line.
    private static string Spliced(string line, string other, Random random)
    {
        var place = random.Next(4, 14);
        var spliced = line[..place] + other[place..];
        return spliced == line || spliced == other ? line[..place] : spliced;
    }
}
