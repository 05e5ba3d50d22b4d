using System.Buffers.Binary;
using System.IO.Compression;

namespace ParticleLims.TestLaboratory;

/// <summary>Small pictures for mastheads, made here: a colour that runs from left to right.</summary>
public static class LogoFiles
{
    private const string BaselineBase64 =
        "/9j/4AAQSkZJRgABAQAAAQABAAD/2wBDAA0JCgsKCA0LCgsODg0PEyAVExISEyccHhcgLikxMC4pLSwzOko+MzZGNywtQFdBRkxOUlNSMj5aYVpQYEpRUk//2wBDAQ4ODhMREyYVFSZPNS01T09PT09PT09PT09PT09PT09PT09PT09PT09P"
        + "T09PT09PT09PT09PT09PT09PT09PT0//wAARCAAUADwDASIAAhEBAxEB/8QAFgABAQEAAAAAAAAAAAAAAAAAAAUE/8QAGRABAAIDAAAAAAAAAAAAAAAAABRhAhJR/8QAFgEBAQEAAAAAAAAAAAAAAAAAAAQG/8QAGBEAAgMAAAAAAAAAAAAA"
        + "AAAAAAERFWH/2gAMAwEAAhEDEQA/AMMeiPSrHoj0gsNJq7CVHoj0qx6I9FhorsJUeiPSrHoj0WGiuwlR6I9KseiPRYaK7Cnpjw0x4DMyzUQhpjw0x4BLEIaY8NMeASxCGmPDTHgEsQj/2Q==";

    private const string ProgressiveBase64 =
        "/9j/4AAQSkZJRgABAQAAAQABAAD/2wBDABALDA4MChAODQ4SERATGCgaGBYWGDEjJR0oOjM9PDkzODdASFxOQERXRTc4UG1RV19iZ2hnPk1xeXBkeFxlZ2P/2wBDARESEhgVGC8aGi9jQjhCY2NjY2NjY2NjY2NjY2NjY2NjY2NjY2NjY2Nj"
        + "Y2NjY2NjY2NjY2NjY2NjY2NjY2NjY2P/wgARCAAUADwDASIAAhEBAxEB/8QAFgABAQEAAAAAAAAAAAAAAAAAAAQD/8QAFwEBAQEBAAAAAAAAAAAAAAAAAAMEBf/aAAwDAQACEAMQAAABxUoTmUiZSJlI3GHoAAAf/8QAFhABAQEAAAAAAAAA"
        + "AAAAAAAAEQAw/9oACAEBAAEFAiIiIiIiIiIjH//EABYRAQEBAAAAAAAAAAAAAAAAABMAIP/aAAgBAwEBPwEYYYc//8QAFhEBAQEAAAAAAAAAAAAAAAAAEwAg/9oACAECAQE/AWmmmz//xAAUEAEAAAAAAAAAAAAAAAAAAABA/9oACAEBAAY/"
        + "Akf/xAAXEAADAQAAAAAAAAAAAAAAAAAAARFA/9oACAEBAAE/IcH/AP8AERERERERERH/2gAMAwEAAgADAAAAEM888/PPPP/EABYRAQEBAAAAAAAAAAAAAAAAAHEAIP/aAAgBAwEBPxAxjHP/xAAWEQEBAQAAAAAAAAAAAAAAAABxACD/2gAI"
        + "AQIBAT8QUpSz/8QAFhABAQEAAAAAAAAAAAAAAAAAAHFh/9oACAEBAAE/EJSlKUpSlKUpSlLJkyZMmTJk/9k=";

    private const string GreyBase64 =
        "/9j/4AAQSkZJRgABAQAAAQABAAD/2wBDAA0JCgsKCA0LCgsODg0PEyAVExISEyccHhcgLikxMC4pLSwzOko+MzZGNywtQFdBRkxOUlNSMj5aYVpQYEpRUk//wAALCAAUADwBAREA/8QAFgABAQEAAAAAAAAAAAAAAAAAAAUE/8QAGRAAAgMB"
        + "AAAAAAAAAAAAAAAAABMCEmFR/9oACAEBAAA/AM6MCMCMCMCMCMCMCMKKMCMCMCMCMCMCMCMKNI8FI8FI8FI8FI8FI8FI8FI8P//Z";

    private const string PressBase64 =
        "/9j/7gAOQWRvYmUAZAAAAAAC/9sAQwANCQoLCggNCwoLDg4NDxMgFRMSEhMnHB4XIC4pMTAuKS0sMzpKPjM2RjcsLUBXQUZMTlJTUjI+WmFaUGBKUVJP/9sAQwEODg4TERMmFRUmTzUtNU9PT09PT09PT09PT09PT09PT09PT09PT09PT09P"
        + "T09PT09PT09PT09PT09PT09PT09P/8AAFAgAFAA8BAEiAAIRAQMRAQQiAP/EABkAAQEBAQEBAAAAAAAAAAAAAAAFBAYBA//EAB8QAQAABQUBAAAAAAAAAAAAAAABAxRRYQISExVSEf/EABYBAQEBAAAAAAAAAAAAAAAAAAAFBv/EABcRAQAD"
        + "AAAAAAAAAAAAAAAAAAACFVH/2gAOBAEAAhEDEQQAAD8A5OqyVWWOnnFPOV6eGKd9LX12YNmFHr5tjr5tmyqyVWWOnnFPOKeGF9LU7Zg2YUevm2Ovm2bKrJVZY6ecU84p4YX0tTtmDZhR6+bY6+bZsqsvavLFTzinnXKeGF9LU7Zg2YUevm2O"
        + "vm2VwF5jnYcWjzA4tHmAAAHFo8wOLR5gAABxaPMDi0eYAHwAOLR5gcWjzAH/2Q==";

    private static readonly byte[] Signature = [0x89, 0x50, 0x4E, 0x47, 0x0D, 0x0A, 0x1A, 0x0A];

    /// <summary>A JPEG of 60 by 20 pixels, baseline, three colours.</summary>
    public static byte[] Baseline => Convert.FromBase64String(BaselineBase64);

    /// <summary>The same, progressive.</summary>
    public static byte[] Progressive => Convert.FromBase64String(ProgressiveBase64);

    /// <summary>The same in greys.</summary>
    public static byte[] Grey => Convert.FromBase64String(GreyBase64);

    /// <summary>The same in the four colours of a printing press.</summary>
    public static byte[] Press => Convert.FromBase64String(PressBase64);

    /// <summary>A PNG.</summary>
    /// <param name="width">In pixels.</param>
    /// <param name="height">In pixels.</param>
    /// <param name="colours">The type of colours: 0 greys, 2 three colours, 3 by a table, 4 greys and how dense, 6 three colours and how dense.</param>
    /// <param name="between">Parts to stand between the head and the pixels.</param>
    public static byte[] Png(int width = 120, int height = 40, int colours = 2, params (string Kind, byte[] Data)[] between)
    {
        var channels = colours switch { 2 => 3, 4 => 2, 6 => 4, _ => 1 };
        var rows = new byte[height * ((width * channels) + 1)];
        for (var i = 0; i < rows.Length; i++)
        {
            var inRow = i % ((width * channels) + 1);
            rows[i] = (byte)(inRow == 0 ? 0 : colours == 3 ? (inRow - 1) % 4 : 40 + ((inRow - 1) / channels * 200 / width));
        }

        return Of(width, height, colours, Packed(rows), between);
    }

    /// <summary>A PNG whose head says one thing, whatever its packed pixels are.</summary>
    public static byte[] Of(int width, int height, int colours, byte[] packed, params (string Kind, byte[] Data)[] between)
    {
        var head = new byte[13];
        BinaryPrimitives.WriteInt32BigEndian(head, width);
        BinaryPrimitives.WriteInt32BigEndian(head.AsSpan(4), height);
        (head[8], head[9]) = (8, (byte)colours);
        byte[] table = [31, 78, 95, 183, 121, 31, 255, 255, 255, 0, 0, 0];
        return
        [
            .. Signature, .. Part("IHDR", head), .. colours == 3 ? Part("PLTE", table) : [], .. between.SelectMany(one => Part(one.Kind, one.Data)), .. Part("IDAT", packed), .. Part("IEND", []),
        ];
    }

    /// <summary>Bytes as PNG packs them.</summary>
    public static byte[] Packed(byte[] bytes)
    {
        using var packed = new MemoryStream();
        using (var packing = new ZLibStream(packed, CompressionLevel.SmallestSize, leaveOpen: true))
        {
            packing.Write(bytes);
        }

        return packed.ToArray();
    }

    /// <summary>A part of a PNG with its check sum.</summary>
    public static byte[] Part(string kind, byte[] data)
    {
        byte[] named = [.. System.Text.Encoding.ASCII.GetBytes(kind), .. data];
        var part = new byte[named.Length + 8];
        BinaryPrimitives.WriteInt32BigEndian(part, data.Length);
        named.CopyTo(part, 4);
        BinaryPrimitives.WriteUInt32BigEndian(part.AsSpan(named.Length + 4), CheckSum(named));
        return part;
    }

    private static uint CheckSum(byte[] bytes)
    {
        var sum = uint.MaxValue;
        foreach (var one in bytes)
        {
            sum ^= one;
            for (var bit = 0; bit < 8; bit++)
            {
                sum = (sum & 1) == 0 ? sum >> 1 : (sum >> 1) ^ 0xEDB88320;
            }
        }

        return ~sum;
    }
}
