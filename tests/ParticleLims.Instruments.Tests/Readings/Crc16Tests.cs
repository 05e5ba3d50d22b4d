using ParticleLims.Instruments.Readings;
using Shouldly;
using Xunit;

namespace ParticleLims.Instruments.Tests.Readings;

public sealed class Crc16Tests
{
    // Source: CRC RevEng catalogue, entry CRC-16/IBM-3740 (width 16, poly 0x1021, init 0xffff, check 0x29b1),
    // https://reveng.sourceforge.io/crc-catalogue/16.htm
    [Fact]
    public void The_check_value_is_that_of_the_catalogue() => Crc16.HexOf("123456789").ShouldBe("29B1");
}
