using CsCheck;
using ParticleLims.Analysis.Quantities;
using ParticleLims.Instruments.Readings;
using Shouldly;
using Xunit;

namespace ParticleLims.Instruments.Tests.Readings;

public sealed class PlainLineTests
{
    private static readonly DateTimeOffset At = new(2026, 3, 2, 8, 15, 0, TimeSpan.Zero);

    [Fact]
    public void A_stable_line_looks_as_described() =>
        PlainLine.Write(Mass.FromGrams(312.345m), 4, stable: true, "0417", checksum: false).ShouldBe("S +   312.3450 g 0417");

    [Fact]
    public void An_unstable_negative_line_keeps_its_sign_and_mark() =>
        PlainLine.Write(Mass.FromGrams(-0.02m), 3, stable: false, "0417", checksum: false).ShouldBe("U -      0.020 g 0417");

    [Fact]
    public void A_mass_finer_than_the_digits_to_be_shown_is_not_written() =>
        Should.Throw<ArgumentException>(() => PlainLine.Write(Mass.FromGrams(1.2345m), 3, true, "1", false));

    [Fact]
    public void A_mass_too_long_for_the_line_is_not_written() =>
        Should.Throw<ArgumentException>(() => PlainLine.Write(Mass.FromGrams(1_234_567m), 4, true, "1", false));

    [Fact]
    public void What_is_written_is_read_back_with_mass_digits_and_mark_unchanged()
    {
        var lines = Gen.Select(Gen.Int[-99_999_999, 99_999_999], Gen.Int[0, 6], Gen.Bool, Gen.Bool);
        lines.Sample((steps, decimals, stable, checksum) =>
        {
            var mass = Mass.FromGrams(steps / (decimal)Math.Pow(10, decimals));
            var format = checksum ? PlainLine.FormatWithChecksum : PlainLine.Format;
            var line = PlainLine.Write(mass, decimals, stable, "0417", checksum);
            var reading = format.Parse(line, At).ShouldBeOfType<BalanceReading>();
            reading.Mass.ShouldBe(mass);
            reading.Decimals.ShouldBe(decimals);
            reading.Stable.ShouldBe(stable);
            reading.RawLine.ShouldBe(line);
            reading.DeviceSerial.ShouldBe("0417");
        });
    }

    [Fact]
    public void The_overload_line_is_refused_as_overload_by_both_formats()
    {
        PlainLine.Format.Parse(PlainLine.WriteOverload("0417", false), At)
            .ShouldBeOfType<RejectedLine>().Code.ShouldBe(RejectionCode.Overload);
        PlainLine.FormatWithChecksum.Parse(PlainLine.WriteOverload("0417", true), At)
            .ShouldBeOfType<RejectedLine>().Code.ShouldBe(RejectionCode.Overload);
    }
}
