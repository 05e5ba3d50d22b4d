using CsCheck;
using ParticleLims.Analysis.Quantities;
using ParticleLims.Instruments.Pressures;
using Shouldly;
using Xunit;

namespace ParticleLims.Instruments.Tests.Pressures;

public sealed class PressureLineTests
{
    [Theory]
    [InlineData("3.21 kPa", 3210)]
    [InlineData("DP 3.210 kPa", 3210)]
    [InlineData("DP=3210 Pa", 3210)]
    [InlineData("P1: -3.2 kPa", 3200)]
    [InlineData("  32.1 mbar ", 3210)]
    [InlineData("32.1 hPa", 3210)]
    [InlineData("12.9 inH2O", 3213)]
    [InlineData("327 mmH2O", 3207)]
    [InlineData("3.2", 3200)]
    [InlineData("0", 0)]
    public void A_number_with_or_without_a_unit_is_a_pressure(string line, long pascals) => PressureLine.Read(line, PressureUnit.Kilopascal).ShouldNotBeNull().Pascals.ShouldBe(pascals);

    [Theory]
    [InlineData("")]
    [InlineData("kPa")]
    [InlineData("3,2 kPa")]
    [InlineData("3.2 bananas")]
    [InlineData("3.2 kPa 4.1 kPa")]
    [InlineData("ERR 12")]
    [InlineData("999999 kPa")]
    [InlineData("3.2.1 kPa")]
    [InlineData("1e3 Pa")]
    [InlineData("P1: 3.2")]
    public void Anything_else_is_none(string line) => PressureLine.Read(line, PressureUnit.Kilopascal).ShouldBeNull();

    [Fact]
    public void Sixteen_inches_of_water_are_the_published_pascals() =>

        // 1 inH2O = 249.089 Pa at 4 °C: 8 to 16 inches are some 2 to 4 kPa.
        PressureLine.Read("16 inWC", PressureUnit.Pascal).ShouldNotBeNull().Pascals.ShouldBe(3985);

    [Fact]
    public void Ten_thousand_damaged_lines_are_refused_or_read_within_range_and_never_an_exception() =>
        Gen.Select(Gen.Int[0, 4000], Gen.Int[0, 14], Gen.Char[(char)0, (char)255], Gen.Int[0, 3]).Sample(
            (pascals, at, letter, kind) =>
            {
                var line = FormattableString.Invariant($"DP {pascals / 1000.0:0.000} kPa");
                var place = Math.Min(at, line.Length - 1);
                var damaged = kind switch
                {
                    0 => line[..place] + letter + line[(place + 1)..],
                    1 => line[..place],
                    2 => line[..place] + letter + line[place..],
                    _ => line[place..] + line,
                };
                return PressureLine.Read(damaged, PressureUnit.Kilopascal) is not { } read || read.Pascals is >= 0 and <= 200_000;
            },
            iter: 10_000);
}
