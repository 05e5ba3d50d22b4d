using System.Security.Cryptography;
using ParticleLims.Laboratory.Record;

namespace ParticleLims.Laboratory.Templates;

/// <summary>
/// A picture for a masthead, read to its last byte before it is kept: a PNG or a JPEG that holds nothing else. Comments, places and times in
/// the file are not kept, nor is anything that a browser or another program could take for something else.
/// </summary>
/// <param name="MediaType"><c>image/png</c> or <c>image/jpeg</c>.</param>
/// <param name="Width">In pixels.</param>
/// <param name="Height">In pixels.</param>
/// <param name="Bytes">What is kept: the picture alone.</param>
public sealed record LogoPicture(string MediaType, int Width, int Height, byte[] Bytes)
{
    /// <summary>The largest file in bytes.</summary>
    public const int Largest = 300 * 1024;

    /// <summary>The longest side in pixels: at 600 dots an inch more than the masthead is wide.</summary>
    public const int LongestSide = 2400;

    /// <summary>The shortest side in pixels.</summary>
    public const int ShortestSide = 16;

    /// <summary>SHA-256 of the bytes that are kept, hexadecimal.</summary>
    public string Sha256 { get; } = Convert.ToHexStringLower(SHA256.HashData(Bytes));

    /// <summary>Reads a file by its content, whatever its name says.</summary>
    /// <exception cref="RefusedException">It is no PNG or JPEG, too large, cut off, or holds more than a picture.</exception>
    public static LogoPicture Of(byte[] file)
    {
        ArgumentNullException.ThrowIfNull(file);
        if (file.Length is 0 or > Largest)
        {
            throw Refused("The file is empty or larger than 300 kB. A logo of 600 by 200 pixels is enough.");
        }

        return PngFile.Begins(file) ? PngFile.Read(file)
            : JpegFile.Begins(file) ? JpegFile.Read(file)
            : throw Refused("The file is no PNG and no JPEG picture, whatever its name says. Save the logo as one of these; drawings such as SVG are not taken.");
    }

    internal static RefusedException Refused(string words) => new("logo", words, "logo");

    internal static RefusedException CutOff() => Refused("The picture is cut off or damaged. Save it again from the program that made it.");

    internal static RefusedException More() => Refused("Behind the picture the file goes on with something else. Save the logo anew as a plain PNG or JPEG.");

    /// <summary>Refuses a size that no masthead needs, before any pixel is unpacked.</summary>
    internal static void RequireSize(long width, long height)
    {
        if (width is < ShortestSide or > LongestSide || height is < ShortestSide or > LongestSide)
        {
            throw Refused(FormattableString.Invariant($"The picture has {width} by {height} pixels; a logo has {ShortestSide} to {LongestSide} each way. Make it smaller or larger."));
        }
    }
}
