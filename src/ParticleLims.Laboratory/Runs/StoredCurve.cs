using System.Buffers.Binary;
using ParticleLims.Analysis.Distributions;
using ParticleLims.Analysis.Quantities;

namespace ParticleLims.Laboratory.Runs;

/// <summary>The points of a curve in few bytes beside its evaluation: nanometres and percent passing, the finest first, so that a product's whole history is read at once.</summary>
internal static class StoredCurve
{
    private const int PointBytes = sizeof(long) + sizeof(double);

    /// <summary>The points of a curve as bytes.</summary>
    public static byte[] Write(DistributionCurve curve)
    {
        var bytes = new byte[curve.Points.Count * PointBytes];
        for (var index = 0; index < curve.Points.Count; index++)
        {
            var point = bytes.AsSpan(index * PointBytes);
            BinaryPrimitives.WriteInt64LittleEndian(point, curve.Points[index].Aperture.Nanometres);
            BinaryPrimitives.WriteDoubleLittleEndian(point[sizeof(long)..], curve.Points[index].PassingPercent.ToDouble());
        }

        return bytes;
    }

    /// <summary>How many points there are.</summary>
    public static int Points(ReadOnlySpan<byte> bytes) => bytes.Length / PointBytes;

    /// <summary>The aperture of a point.</summary>
    public static Aperture Size(ReadOnlySpan<byte> bytes, int point) => Aperture.FromNanometres(BinaryPrimitives.ReadInt64LittleEndian(bytes[(point * PointBytes)..]));

    /// <summary>The percentage passing there.</summary>
    public static double Percent(ReadOnlySpan<byte> bytes, int point) => BinaryPrimitives.ReadDoubleLittleEndian(bytes[((point * PointBytes) + sizeof(long))..]);
}
