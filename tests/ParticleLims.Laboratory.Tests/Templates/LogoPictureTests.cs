using System.Buffers.Binary;
using System.Text;
using ParticleLims.Laboratory.Record;
using ParticleLims.Laboratory.Templates;

namespace ParticleLims.Laboratory.Tests.Templates;

/// <summary>What is taken for a logo: pictures alone, whatever the file's name says.</summary>
public sealed class LogoPictureTests
{
    private static readonly byte[] Page = "<svg xmlns='http://www.w3.org/2000/svg'><script>alert(1)</script></svg>"u8.ToArray();

    public static TheoryData<string> Hostile =>
    [
        "svg", "svg behind an empty line", "html", "pdf", "gif", "nothing", "too many bytes", "signature alone", "png and a page behind it", "jpeg and a page behind it", "png and a zip behind it", "png of 100000 pixels", "png of 2 pixels",
        "jpeg of 60000 pixels", "png that unpacks to more", "png that unpacks to less", "png with a wrong sum", "png with a part that is longer than the file", "png interlaced", "png of 16 bits", "png with an unknown part that must be read",
        "png without a head", "png with a filter that there is not", "jpeg for a press", "jpeg without an end", "jpeg without a picture", "jpeg with a segment that is longer than the file", "jpeg with colours coded otherwise",
    ];

    [Theory]
    [InlineData(0)]
    [InlineData(2)]
    [InlineData(3)]
    [InlineData(4)]
    [InlineData(6)]
    public void A_usual_PNG_is_taken_as_it_is(int colours)
    {
        var file = LogoFiles.Png(colours: colours);
        var picture = LogoPicture.Of(file);
        (picture.MediaType, picture.Width, picture.Height).ShouldBe(("image/png", 120, 40));
        picture.Bytes.ShouldBe(file);
        picture.Sha256.ShouldBe(Convert.ToHexStringLower(System.Security.Cryptography.SHA256.HashData(file)));
    }

    [Fact]
    public void A_JPEG_is_taken_with_three_colours_in_steps_or_in_greys()
    {
        foreach (var file in new[] { LogoFiles.Baseline, LogoFiles.Progressive, LogoFiles.Grey })
        {
            var picture = LogoPicture.Of(file);
            (picture.MediaType, picture.Width, picture.Height).ShouldBe(("image/jpeg", 60, 20));
            LogoPicture.Of(picture.Bytes).Bytes.ShouldBe(picture.Bytes, "what is kept is read the same again");
        }
    }

    [Fact]
    public void What_a_file_holds_beside_the_picture_is_not_kept()
    {
        var png = LogoPicture.Of(LogoFiles.Png(between: [("tEXt", [.. "Comment\0"u8, .. Page]), ("eXIf", "GPS 53.3 N"u8.ToArray())]));
        png.Bytes.ShouldBe(LogoFiles.Png());
        var jpeg = LogoPicture.Of([.. LogoFiles.Baseline.Take(2), .. Segment(0xFE, Page), .. Segment(0xE1, "Exif GPS 53.3 N"u8.ToArray()), .. LogoFiles.Baseline.Skip(2)]);
        jpeg.Bytes.ShouldBe(LogoPicture.Of(LogoFiles.Baseline).Bytes);
        Encoding.Latin1.GetString(jpeg.Bytes).ShouldNotContain("GPS");
    }

    [Theory]
    [MemberData(nameof(Hostile))]
    public void A_file_that_is_no_picture_or_more_than_one_is_refused_in_words(string which)
    {
        var refusal = Should.Throw<RefusedException>(() => LogoPicture.Of(Made(which)), which);
        (refusal.Code, refusal.Member).ShouldBe(("logo", "logo"));
        refusal.Message.Length.ShouldBeGreaterThan(40);
    }

    [Fact]
    public void A_picture_cut_off_anywhere_is_refused()
    {
        foreach (var file in new[] { LogoFiles.Png(20, 16), LogoFiles.Baseline, LogoFiles.Progressive })
        {
            for (var length = 0; length < file.Length; length++)
            {
                Should.Throw<RefusedException>(() => LogoPicture.Of(file[..length]), $"after {length} bytes");
            }
        }
    }

    [Fact]
    public void A_PNG_with_any_bit_turned_is_refused_or_the_same_picture()
    {
        var file = LogoFiles.Png(20, 16);
        for (var place = 0; place < file.Length * 8; place++)
        {
            var turned = (byte[])file.Clone();
            turned[place / 8] ^= (byte)(1 << (place % 8));
            try
            {
                LogoPicture.Of(turned).Bytes.Length.ShouldBeLessThanOrEqualTo(file.Length);
            }
            catch (RefusedException refusal)
            {
                refusal.Code.ShouldBe("logo");
            }
        }
    }

    private static byte[] Made(string which)
    {
        var (png, jpeg) = (LogoFiles.Png(), LogoFiles.Baseline);
        var rows = new byte[40 * 361];
        return which switch
        {
            "svg" => Page,
            "svg behind an empty line" => [10, .. Page],
            "html" => "<!doctype html><html><body onload=alert(1)></body></html>"u8.ToArray(),
            "pdf" => "%PDF-1.7\n%%EOF"u8.ToArray(),
            "gif" => [.. "GIF89a"u8, .. new byte[200]],
            "nothing" => [],
            "too many bytes" => [.. png, .. new byte[LogoPicture.Largest]],
            "signature alone" => png[..8],
            "png and a page behind it" => [.. png, .. Page],
            "jpeg and a page behind it" => [.. jpeg, .. Page],
            "png and a zip behind it" => [.. png, 0x50, 0x4B, 3, 4, 0, 0],
            "png of 100000 pixels" => LogoFiles.Of(100_000, 100_000, 2, LogoFiles.Packed(rows)),
            "png of 2 pixels" => LogoFiles.Png(2, 2),
            "jpeg of 60000 pixels" => With(jpeg, Frame(jpeg) + 5, 0xEA, 0x60, 0xEA, 0x60),
            "png that unpacks to more" => LogoFiles.Of(120, 40, 2, LogoFiles.Packed(new byte[50_000_000])),
            "png that unpacks to less" => LogoFiles.Of(120, 40, 2, LogoFiles.Packed(rows[..^1])),
            "png with a wrong sum" => With(png, png.Length - 1, (byte)(png[^1] ^ 1)),
            "png with a part that is longer than the file" => With(png, 33, 0x7F, 0xFF, 0xFF, 0xFF),
            "png interlaced" => Headed(12, 1),
            "png of 16 bits" => Headed(8, 16),
            "png with an unknown part that must be read" => LogoFiles.Png(between: [("ABCD", [1, 2, 3])]),
            "png without a head" => [.. png[..8], .. LogoFiles.Part("IDAT", [1]), .. LogoFiles.Part("IEND", [])],
            "png with a filter that there is not" => LogoFiles.Of(120, 40, 2, LogoFiles.Packed(With(rows, 0, 9))),
            "jpeg for a press" => LogoFiles.Press,
            "jpeg without an end" => jpeg[..^2],
            "jpeg without a picture" => [0xFF, 0xD8, 0xFF, 0xE0, 0, 4, 1, 2, 0xFF, 0xD9],
            "jpeg with a segment that is longer than the file" => [0xFF, 0xD8, 0xFF, 0xDB, 0xFF, 0xFF, 1, 2, 3],
            "jpeg with colours coded otherwise" => [.. jpeg[..2], .. Segment(0xEE, [.. "Adobe"u8, 0, 100, 0, 0, 0, 0, 0]), .. jpeg[2..]],
            _ => throw new ArgumentOutOfRangeException(nameof(which), which, "Not a file."),
        };
    }

    private static byte[] With(byte[] file, int place, params byte[] bytes)
    {
        var changed = (byte[])file.Clone();
        bytes.CopyTo(changed, place);
        return changed;
    }

    private static byte[] Headed(int place, byte value)
    {
        var png = LogoFiles.Png();
        var head = png[16..29];
        head[place] = value;
        return [.. png[..8], .. LogoFiles.Part("IHDR", head), .. png[33..]];
    }

    private static int Frame(byte[] jpeg) => Enumerable.Range(0, jpeg.Length - 1).First(place => jpeg[place] == 0xFF && jpeg[place + 1] == 0xC0);

    private static byte[] Segment(byte marker, byte[] data)
    {
        byte[] segment = [0xFF, marker, 0, 0, .. data];
        BinaryPrimitives.WriteUInt16BigEndian(segment.AsSpan(2), (ushort)(data.Length + 2));
        return segment;
    }
}
