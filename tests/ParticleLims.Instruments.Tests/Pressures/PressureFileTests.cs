using ParticleLims.Instruments.Pressures;
using Shouldly;
using Xunit;

namespace ParticleLims.Instruments.Tests.Pressures;

public sealed class PressureFileTests
{
    [Theory]
    [InlineData("seconds,kPa\n0,3.2\n0.5,3.3\n1.0,-3.1\n")]
    [InlineData("time;pressure (mbar)\r\n10:41:07;32\r\n10:41:07.5;33\r\n10:41:08;31\r\n")]
    [InlineData("P_Pa\tt\n3200\t2026-11-25T10:41:07Z\n3300\t2026-11-25T10:41:07.5Z\n3100\t2026-11-25T10:41:08Z\n")]
    public void Times_and_pressures_of_any_of_these_kinds_are_read(string text)
    {
        var reading = PressureFile.Read(text);
        reading.Refusal.ShouldBeNull();
        reading.Samples.Select(sample => (sample.Seconds, sample.Pressure.Pascals)).ShouldBe([(0m, 3200L), (0.5m, 3300L), (1m, 3100L)]);
    }

    [Theory]
    [InlineData("", "cannot be read as comma-separated values")]
    [InlineData("a,b\n1,2\n2,3\n", "The first row needs the names")]
    [InlineData("seconds,kPa\n0,3.2\n", "fewer than two rows")]
    [InlineData("seconds;kPa\n0;3,2\n1;3,3\n", "Line 2: “3,2” is no pressure in kPa")]
    [InlineData("seconds,kPa\n0,3.2\nsoon,3.3\n", "Line 3: “soon” is no time")]
    [InlineData("seconds,kPa\n5,3.2\n4,3.3\n", "Line 3: the time goes back")]
    [InlineData("seconds,kPa\n0,3.2\n1\n", "Line 3 has too few columns")]
    [InlineData("seconds,kPa\n0,3.2\n1,900\n", "Line 3: “900” is no pressure in kPa")]
    public void What_is_wrong_is_said_with_its_line(string text, string words)
    {
        var reading = PressureFile.Read(text);
        reading.Samples.ShouldBeEmpty();
        reading.Refusal.ShouldNotBeNull().ShouldContain(words);
    }

    [Fact]
    public void A_file_that_is_no_table_is_refused_and_never_an_exception()
    {
        var random = new Random(7);
        for (var i = 0; i < 2_000; i++)
        {
            var text = "seconds,kPa\n" + string.Concat(Enumerable.Range(0, random.Next(200)).Select(_ => (char)random.Next(0, 300)));
            var reading = PressureFile.Read(text);
            (reading.Refusal is null || reading.Samples.Count == 0).ShouldBeTrue();
        }

        PressureFile.Read(new string('x', PressureFile.Longest + 1)).Refusal.ShouldNotBeNull().ShouldContain("two million characters");
    }
}
