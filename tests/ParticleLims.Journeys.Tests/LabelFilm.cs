using System.Text;
using ZXing;

namespace ParticleLims.Journeys.Tests;

/// <summary>A film of labels for a camera that is none: each code is shown for a second, drawn by a general library of bar codes.</summary>
internal static class LabelFilm
{
    private const int Width = 640;
    private const int Height = 480;
    private const int FramesEach = 10;

    /// <summary>Writes the film, ten pictures a second.</summary>
    public static void Write(string file, params (BarcodeFormat Format, string Code)[] labels)
    {
        using var film = File.Create(file);
        film.Write(Encoding.ASCII.GetBytes($"YUV4MPEG2 W{Width} H{Height} F{FramesEach}:1 Ip A1:1 C420jpeg\n"));
        var colours = new byte[Width * Height / 2];
        Array.Fill(colours, (byte)128);
        foreach (var (format, code) in labels)
        {
            var picture = Picture(format, code);
            for (var frame = 0; frame < FramesEach; frame++)
            {
                film.Write("FRAME\n"u8);
                film.Write(picture);
                film.Write(colours);
            }
        }
    }

    private static byte[] Picture(BarcodeFormat format, string code)
    {
        var bars = new MultiFormatWriter().encode(code, format, 560, 320, new Dictionary<EncodeHintType, object> { [EncodeHintType.MARGIN] = 2 });
        var picture = new byte[Width * Height];
        Array.Fill(picture, (byte)235);
        var (left, top) = ((Width - bars.Width) / 2, (Height - bars.Height) / 2);
        for (var y = 0; y < bars.Height; y++)
        {
            for (var x = 0; x < bars.Width; x++)
            {
                if (bars[x, y])
                {
                    picture[((top + y) * Width) + left + x] = 20;
                }
            }
        }

        return picture;
    }
}
