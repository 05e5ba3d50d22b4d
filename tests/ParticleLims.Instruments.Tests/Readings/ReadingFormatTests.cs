using ParticleLims.Analysis.Quantities;
using ParticleLims.Instruments.Readings;
using Shouldly;
using Xunit;

namespace ParticleLims.Instruments.Tests.Readings;

public sealed class ReadingFormatTests
{
    private static readonly DateTimeOffset At = new(2026, 3, 2, 8, 15, 0, TimeSpan.Zero);

    private static readonly ReadingFormat Loose = new()
    {
        Name = "value and unit",
        Pattern = @"(?<sign>[+-]?)(?<value>[^ ]+) (?<unit>\w+) ?(?<stable>[!?])?",
        StableMarks = "!",
        UnstableMarks = "?",
    };

    [Fact]
    public void A_good_line_gives_mass_digits_mark_serial_time_and_itself()
    {
        var reading = PlainLine.Format.Parse("S +   312.3450 g 0417", At).ShouldBeOfType<BalanceReading>();
        reading.ShouldBe(new BalanceReading(
            Mass.FromMicrograms(312_345_000), 4, Mass.FromMicrograms(100), true, "S +   312.3450 g 0417", At, "0417"));
    }

    [Theory]
    [InlineData("312.345 g !", 312_345_000, 3, 1_000)]
    [InlineData("-0.5 g !", -500_000, 1, 100_000)]
    [InlineData("+7 g !", 7_000_000, 0, 1_000_000)]
    [InlineData("312345.0 mg !", 312_345_000, 4, 100)]
    [InlineData("0.001 mg !", 1, 6, 1)]
    [InlineData("1.2345 kg !", 1_234_500_000, 1, 100_000)]
    [InlineData("1.2 kg !", 1_200_000_000, 0, 100_000_000)]
    [InlineData("-0.000 g !", 0, 3, 1_000)]
    [InlineData("999999999.999 kg !", 999_999_999_999_000_000, 0, 1_000_000)]
    public void Grams_milligrams_and_kilograms_become_exact_masses(string line, long micrograms, int decimals, long lastDigit)
    {
        var reading = Loose.Parse(line, At).ShouldBeOfType<BalanceReading>();
        reading.Mass.Micrograms.ShouldBe(micrograms);
        reading.Decimals.ShouldBe(decimals);
        reading.LastDigit.Micrograms.ShouldBe(lastDigit);
    }

    [Theory]
    [InlineData("", RejectionCode.Empty)]
    [InlineData("S +   312.3450 g 041", RejectionCode.WrongSerial)]
    [InlineData("S +   312.3450 g", RejectionCode.Unreadable)]
    [InlineData("312.3450 g 0417", RejectionCode.Unreadable)]
    [InlineData("S +  312.3450 g 0417", RejectionCode.Unreadable)]
    [InlineData("S +   312.3450 g 0417 ", RejectionCode.Unreadable)]
    [InlineData("S +   312.3450 g 0417\n", RejectionCode.NotAscii)]
    [InlineData("S +   312,3450 g 0417", RejectionCode.DecimalMark)]
    [InlineData("S + 1,312.3450 g 0417", RejectionCode.DecimalMark)]
    [InlineData("S +   312.34 0 g 0417", RejectionCode.NotANumber)]
    [InlineData("S +   312.3.50 g 0417", RejectionCode.NotANumber)]
    [InlineData("S +        NaN g 0417", RejectionCode.NotANumber)]
    [InlineData("S +   Infinity g 0417", RejectionCode.NotANumber)]
    [InlineData("S +      1.2e2 g 0417", RejectionCode.NotANumber)]
    [InlineData("S +       .345 g 0417", RejectionCode.NotANumber)]
    [InlineData("S +       312. g 0417", RejectionCode.NotANumber)]
    [InlineData("S +            g 0417", RejectionCode.NotANumber)]
    [InlineData("S +------------ 0417", RejectionCode.Unreadable)]
    [InlineData("S +----------- g 0417", RejectionCode.NotANumber)]
    [InlineData("S +-  312.3450 g 0417", RejectionCode.NotANumber)]
    [InlineData("S +  1.1234567 g 0417", RejectionCode.TooFine)]
    [InlineData("S +     1.1234 mg 0417", RejectionCode.TooFine)]
    [InlineData("S +   312.3450 lb 0417", RejectionCode.WrongUnit)]
    [InlineData("S +   312.3450 G 0417", RejectionCode.WrongUnit)]
    [InlineData("S +   312.3450 Mg 0417", RejectionCode.WrongUnit)]
    [InlineData("S +   312.3450 % 0417", RejectionCode.WrongUnit)]
    [InlineData("X +   312.3450 g 0417", RejectionCode.UnknownMark)]
    [InlineData("O +----------- g 0417", RejectionCode.Overload)]
    [InlineData("O +   312.3450 g 0417", RejectionCode.Overload)]
    [InlineData("L +----------- g 0417", RejectionCode.Underload)]
    [InlineData("S +   312.3450 g 0418", RejectionCode.WrongSerial)]
    [InlineData("S +   312.3450 µg 0417", RejectionCode.NotAscii)]
    [InlineData("S +   ３12.3450 g 0417", RejectionCode.NotAscii)]
    [InlineData("S +\0  312.3450 g 0417", RejectionCode.NotAscii)]
    public void A_line_that_leaves_a_doubt_is_refused_in_words(string line, RejectionCode code)
    {
        var refused = PlainLine.Format.Parse(line, At, "0417").ShouldBeOfType<RejectedLine>();
        refused.Code.ShouldBe(code);
        refused.Reason.ShouldEndWith(".");
        refused.At.ShouldBe(At);
        refused.RawLine.All(c => c is >= ' ' and <= '~').ShouldBeTrue();
    }

    [Fact]
    public void A_line_longer_than_the_format_allows_is_refused() =>
        PlainLine.Format.Parse(new string('1', 81), At).ShouldBeOfType<RejectedLine>().Code.ShouldBe(RejectionCode.TooLong);

    [Fact]
    public void A_character_that_cannot_be_stored_is_kept_as_its_code() =>
        PlainLine.Format.Parse("S\0\u00E9", At).RawLine.ShouldBe(@"S\x00\xE9");

    [Fact]
    public void A_comma_is_read_only_by_a_format_that_says_comma()
    {
        var comma = Loose with { DecimalMark = DecimalMark.Comma };
        comma.Parse("10,5 g !", At).ShouldBeOfType<BalanceReading>().Mass.Grams.ShouldBe(10.5m);
        comma.Parse("10.5 g !", At).ShouldBeOfType<RejectedLine>().Code.ShouldBe(RejectionCode.DecimalMark);
        Loose.Parse("10,5 g !", At).ShouldBeOfType<RejectedLine>().Code.ShouldBe(RejectionCode.DecimalMark);
    }

    [Fact]
    public void A_line_without_a_mark_means_what_the_format_says_and_nothing_otherwise()
    {
        Loose.Parse("10.5 g", At).ShouldBeOfType<RejectedLine>().Code.ShouldBe(RejectionCode.UnknownMark);
        var stable = Loose with { Unmarked = UnmarkedLine.Stable };
        stable.Parse("10.5 g", At).ShouldBeOfType<BalanceReading>().Stable.ShouldBeTrue();
        stable.Parse("10.5 g ?", At).ShouldBeOfType<BalanceReading>().Stable.ShouldBeFalse();
        (Loose with { Unmarked = UnmarkedLine.Unstable }).Parse("10.5 g", At).ShouldBeOfType<BalanceReading>().Stable.ShouldBeFalse();
    }

    [Fact]
    public void With_a_checksum_a_line_without_or_with_a_wrong_one_is_refused()
    {
        var good = PlainLine.Write(Mass.FromGrams(1m), 4, true, "0417", checksum: true);
        PlainLine.FormatWithChecksum.Parse(good, At).ShouldBeOfType<BalanceReading>();
        PlainLine.FormatWithChecksum.Parse(good[..^6], At).ShouldBeOfType<RejectedLine>();
        PlainLine.FormatWithChecksum.Parse(good.Replace("1.0000", "7.0000", StringComparison.Ordinal), At)
            .ShouldBeOfType<RejectedLine>().Code.ShouldBe(RejectionCode.ChecksumWrong);
    }

    [Fact]
    public void Formats_with_the_same_data_are_equal() => (Loose with { Name = "other" } with { Name = Loose.Name }).ShouldBe(Loose);

    [Theory]
    [InlineData("(?<value>.+", "not a regular expression")]
    [InlineData(@"(?<value>\d+)", "'unit'")]
    [InlineData(@"(?<unit>\w+)", "'value'")]
    [InlineData(@"(?=1)(?<value>\d+)(?<unit>\w+)", "look-around")]
    [InlineData(@"(?<value>\d+)(?<unit>\w+)", "'stable'")]
    public void A_pattern_that_cannot_work_is_named_to_the_administrator(string pattern, string says)
    {
        var format = new ReadingFormat { Name = "draft", Pattern = pattern };
        format.Problems().ShouldContain(problem => problem.Contains(says, StringComparison.Ordinal));
        Should.Throw<InvalidOperationException>(() => format.Parse("1 g", At));
    }

    [Fact]
    public void Every_other_fault_of_a_format_is_named_too()
    {
        var bad = Loose with
        {
            Name = " ",
            LineTerminator = "",
            MaxLineLength = 7,
            UnstableMarks = "!",
            Units = "g lb",
            RequestEvery = TimeSpan.FromMilliseconds(1),
            CommandTerminator = "\r\n\r\n\r",
            SilenceLimit = TimeSpan.Zero,
            Checksum = LineChecksum.Crc16,
        };
        bad.Problems().Count.ShouldBe(10, string.Join('\n', bad.Problems()));
        Loose.Problems().ShouldBeEmpty();
        PlainLine.Format.Problems().ShouldBeEmpty();
        PlainLine.FormatWithChecksum.Problems().ShouldBeEmpty();
    }

    [Theory]
    [InlineData("g mg kg ct=0.2", "12.34 ct !", 2_468_000, 3, 2_000)]
    [InlineData("gn=0.064799", "-100.0 gn !", -6_479_900, 4, 0)]
    [InlineData("u=0.000001", "7 u !", 7, 6, 1)]
    [InlineData("t=1000", "1.5 t !", 1_500_000_000, 0, 100_000_000)]
    public void Another_unit_is_read_by_the_grams_that_the_format_gives_it(string units, string line, long micrograms, int decimals, long lastDigit)
    {
        var format = Loose with { Units = units };
        format.Problems().ShouldBeEmpty();
        if (lastDigit == 0)
        {
            // A tenth of this unit is 6479.9 micrograms: no whole number, and nothing is rounded.
            format.Parse(line, At).ShouldBeOfType<RejectedLine>().Code.ShouldBe(RejectionCode.TooFine);
            format.Parse(line.Replace("100.0", "100", StringComparison.Ordinal), At).ShouldBeOfType<BalanceReading>().Mass.Micrograms.ShouldBe(micrograms);
            return;
        }

        var reading = format.Parse(line, At).ShouldBeOfType<BalanceReading>();
        (reading.Mass.Micrograms, reading.Decimals, reading.LastDigit.Micrograms).ShouldBe((micrograms, decimals, lastDigit));
    }

    [Theory]
    [InlineData("")]
    [InlineData("g=1")]
    [InlineData("kg=2")]
    [InlineData("ct")]
    [InlineData("ct=")]
    [InlineData("=0.2")]
    [InlineData("ct=0")]
    [InlineData("ct=-0.2")]
    [InlineData("ct=0,2")]
    [InlineData("ct=1000.1")]
    [InlineData("ct=0.0000001")]
    [InlineData("g ct=0.2 ct=0.3")]
    public void A_list_of_units_that_leaves_a_doubt_is_named_to_the_administrator(string units)
    {
        (Loose with { Units = units }).Problems().ShouldHaveSingleItem().ShouldContain("unit");
        Should.Throw<InvalidOperationException>(() => (Loose with { Units = units }).Parse("1 g !", At));
    }

    [Fact]
    public void A_sign_that_is_neither_plus_nor_minus_is_refused_and_never_taken_for_plus()
    {
        var anySign = Loose with { Pattern = @"(?<sign>[^0-9])(?<value>[0-9.]+) (?<unit>[a-z]+) (?<stable>[!?])" };
        anySign.Parse("-1.5 g !", At).ShouldBeOfType<BalanceReading>().Mass.Grams.ShouldBe(-1.5m);
        anySign.Parse(" 1.5 g !", At).ShouldBeOfType<BalanceReading>().Mass.Grams.ShouldBe(1.5m);
        anySign.Parse("~1.5 g !", At).ShouldBeOfType<RejectedLine>().Code.ShouldBe(RejectionCode.NotANumber);
    }

    [Fact]
    public void A_serial_number_is_asked_for_only_where_the_lines_tell_one()
    {
        Loose.TellsSerial.ShouldBeFalse();
        PlainLine.Format.TellsSerial.ShouldBeTrue();
        Loose.Parse("1.5 g !", At, "0417").ShouldBeOfType<BalanceReading>().DeviceSerial.ShouldBeNull();
        (Loose with { Pattern = Loose.Pattern + "(?: (?<serial>[0-9]+))?" }).Parse("1.5 g !", At, "0417").ShouldBeOfType<RejectedLine>().Code.ShouldBe(RejectionCode.WrongSerial);
    }

    [Theory]
    [InlineData(@"(?:(?<value>\d{1,9}) (?<unit>g)){3}", "repetitions of a group")]
    [InlineData(@"(?<value>\d{1,100}) (?<unit>g)", "more than 99")]
    [InlineData(@"(?<value>\d{100000000000000000}) (?<unit>g)", "more than 99")]
    [InlineData(@"(?i)(?<value>\d+) (?<unit>g)", "options")]
    [InlineData(@"(?<value>\d+)(?#a comment) (?<unit>g)", "comments")]
    [InlineData(@"(?'value'\d+) (?<unit>g)", "(?<name>")]
    [InlineData("", "1 to 400")]
    public void A_pattern_that_could_become_large_is_refused_before_it_is_compiled(string pattern, string says) =>
        (Loose with { Pattern = pattern, Unmarked = UnmarkedLine.Stable }).Problems().ShouldHaveSingleItem().ShouldContain(says);

    [Fact]
    public void What_is_escaped_or_stands_in_a_class_does_not_make_a_pattern_large()
    {
        var odd = Loose with { Pattern = @"\(?(?<value>[0-9.]+)\)? (?<unit>[({?g]+) (?<stable>[!?])" };
        odd.Problems().ShouldBeEmpty();
        odd.Parse("(1.5) g !", At).ShouldBeOfType<BalanceReading>().Mass.Grams.ShouldBe(1.5m);
    }

    [Fact]
    public void A_pattern_made_to_take_for_ever_answers_at_once()
    {
        var greedy = Loose with { Pattern = @"(?<value>(\d+)+)(?<unit>z)(?<stable>!)", MaxLineLength = 512 };
        var watch = System.Diagnostics.Stopwatch.StartNew();
        greedy.Parse(new string('1', 500), At).ShouldBeOfType<RejectedLine>();
        watch.Elapsed.ShouldBeLessThan(TimeSpan.FromSeconds(5));
    }
}
