using System.Globalization;
using ParticleLims.Web.Controls;
using Shouldly;
using Xunit;

namespace ParticleLims.Web.Tests.Controls;

public sealed class NumberReadingTests
{
    [Theory]
    [InlineData("10.5", "10.5")]
    [InlineData(" 0.001 ", "0.001")]
    [InlineData("-3", "-3")]
    [InlineData(".5", "0.5")]
    [InlineData("1250", "1250")]
    public void A_point_before_the_decimals_is_read(string typed, string expected) =>
        NumberReading.Read(typed).ShouldBe(new TypedNumber(decimal.Parse(expected, CultureInfo.InvariantCulture), null));

    [Theory]
    [InlineData("")]
    [InlineData("   ")]
    [InlineData(null)]
    public void Nothing_typed_is_no_number_and_no_refusal(string? typed) => NumberReading.Read(typed).ShouldBe(new TypedNumber(null, null));

    [Fact]
    public void A_comma_is_refused_and_the_advice_is_to_type_a_point()
    {
        var read = NumberReading.Read("10,5");
        read.Value.ShouldBeNull();
        read.Refusal.ShouldBe("“10,5” has a comma. Use a point before the decimals and nothing between thousands. If you mean the decimal number, type 10.5.");
    }

    [Theory]
    [InlineData("1,250.5")]
    [InlineData("1,250,000")]
    [InlineData("1.250,5")]
    public void A_comma_among_thousands_is_refused_without_a_guess(string typed)
    {
        var read = NumberReading.Read(typed);
        read.Value.ShouldBeNull();
        read.Refusal.ShouldBe($"“{typed}” has a comma. Use a point before the decimals and nothing between thousands.");
    }

    [Theory]
    [InlineData("ten", "is not a number")]
    [InlineData("10 g", "has a space inside")]
    [InlineData("1 250", "has a space inside")]
    [InlineData("1.250.000", "has more than one point")]
    [InlineData("1e3", "is not a number")]
    [InlineData("NaN", "is not a number")]
    [InlineData("٣", "is not a number")]
    [InlineData("79228162514264337593543950336", "is not a number")]
    public void What_is_no_number_is_refused_in_words(string typed, string words)
    {
        var read = NumberReading.Read(typed);
        read.Value.ShouldBeNull();
        read.Refusal.ShouldNotBeNull().ShouldContain(words);
    }

    [Theory]
    [InlineData("-0.1", "Type a number from 0 to 100.")]
    [InlineData("100.1", "Type a number from 0 to 100.")]
    public void A_number_outside_its_range_is_refused_with_the_range(string typed, string words) => NumberReading.Read(typed, 0m, 100m).Refusal.ShouldBe(words);

    [Fact]
    public void The_ends_of_the_range_belong_to_it()
    {
        NumberReading.Read("0", 0m, 100m).Value.ShouldBe(0m);
        NumberReading.Read("100", 0m, 100m).Value.ShouldBe(100m);
    }

    [Fact]
    public void More_decimals_than_are_kept_are_refused_and_not_cut()
    {
        NumberReading.Read("0.0000001").Refusal.ShouldBe("At most 6 decimals are kept; type fewer.");
        NumberReading.Read("180.5", decimals: 0).Refusal.ShouldBe("Type a whole number.");
        NumberReading.Read("180.000", decimals: 0).Value.ShouldBe(180m);
    }

    [Fact]
    public void Many_numbers_are_parted_by_spaces_or_semicolons()
    {
        var (values, refusal) = NumberReading.ReadMany("20 32;45  63");
        refusal.ShouldBeNull();
        values.ShouldBe([20m, 32m, 45m, 63m]);
    }

    [Fact]
    public void The_wrong_one_of_many_is_named()
    {
        NumberReading.ReadMany("20 32,5 45").Refusal.ShouldNotBeNull().ShouldStartWith("“32,5” has a comma.");
        NumberReading.ReadMany("20 200000", 0m, 125_000m).Refusal.ShouldBe("“200000”: Type a number from 0 to 125000.");
    }

    [Fact]
    public void What_is_written_is_read_again_whatever_the_reader_s_language()
    {
        var before = CultureInfo.CurrentCulture;
        try
        {
            CultureInfo.CurrentCulture = CultureInfo.GetCultureInfo("de-DE");
            NumberReading.Write(1250.75m).ShouldBe("1250.75");
            NumberReading.Read(NumberReading.Write(1250.75m)).Value.ShouldBe(1250.75m);
            NumberReading.Read("10,5").Value.ShouldBeNull();
        }
        finally
        {
            CultureInfo.CurrentCulture = before;
        }
    }
}
