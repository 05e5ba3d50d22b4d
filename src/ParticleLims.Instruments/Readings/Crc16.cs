namespace ParticleLims.Instruments.Readings;

/// <summary>
/// The 16-bit cyclic redundancy check with the polynomial x¹⁶ + x¹² + x⁵ + 1 (0x1021), all ones at the start, nothing
/// reflected and nothing inverted at the end; the CRC RevEng catalogue lists it as CRC-16/IBM-3740. It finds every burst
/// of up to 16 bits, so every wrong character and every two wrong neighbours; of other damage it lets one in 65 536 pass.
/// </summary>
public static class Crc16
{
    private const ushort Polynomial = 0x1021;

    /// <summary>The check value of a text of characters 0 to 255, one byte each.</summary>
    public static ushort Of(ReadOnlySpan<char> text)
    {
        var crc = ushort.MaxValue;
        foreach (var character in text)
        {
            crc ^= (ushort)(character << 8);
            for (var bit = 0; bit < 8; bit++)
            {
                crc = (ushort)((crc & 0x8000) != 0 ? (crc << 1) ^ Polynomial : crc << 1);
            }
        }

        return crc;
    }

    /// <summary>The check value as four upper-case hexadecimal digits.</summary>
    public static string HexOf(ReadOnlySpan<char> text) => Of(text).ToString("X4", System.Globalization.CultureInfo.InvariantCulture);
}
