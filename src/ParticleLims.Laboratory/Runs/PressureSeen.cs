using System.Globalization;
using ParticleLims.Analysis.Quantities;
using ParticleLims.Laboratory.Record;

namespace ParticleLims.Laboratory.Runs;

/// <summary>Where the pressure of a stretch of sieving comes from.</summary>
public enum PressureSource
{
    /// <summary>Somebody read the gauge.</summary>
    ReadByHand,
    /// <summary>The gauge of the sieving unit, over the network.</summary>
    Gauge,
    /// <summary>A file of a logger.</summary>
    File,
}

/// <summary>The pressure at a moment of a stretch.</summary>
/// <param name="Milliseconds">Since the first sample.</param>
/// <param name="Pressure">The pressure.</param>
public sealed record PressureMoment(int Milliseconds, Pressure Pressure);

/// <summary>The differential pressure over a stretch of sieving.</summary>
public sealed record PressureSeen(Pressure Lowest, Pressure Mean, Pressure Highest)
{
    /// <summary>The most moments that are kept of a stretch.</summary>
    public const int MostMoments = 600;

    /// <summary>Where it comes from.</summary>
    public PressureSource Source { get; init; }

    /// <summary>The course of it; empty where it was read by hand.</summary>
    public IReadOnlyList<PressureMoment> Course { get; init; } = [];

    /// <summary>Lowest, mean and highest of a course of samples; null where there is none. Of a long course the extremes of each part are kept, so that no peak is lost.</summary>
    public static PressureSeen? Of(IReadOnlyList<PressureMoment> course, PressureSource source)
    {
        ArgumentNullException.ThrowIfNull(course);
        if (course.Count == 0)
        {
            return null;
        }

        var pascals = course.Select(moment => moment.Pressure.Pascals).ToList();
        var mean = Pressure.FromPascals((long)Math.Round(pascals.Average(), MidpointRounding.ToEven));
        return new PressureSeen(Pressure.FromPascals(pascals.Min()), mean, Pressure.FromPascals(pascals.Max())) { Source = source, Course = Thinned(course) };
    }

    /// <summary>Refuses what contradicts itself.</summary>
    public void Check()
    {
        if (Lowest.Pascals > Mean.Pascals || Mean.Pascals > Highest.Pascals)
        {
            throw new RefusedException("pressure-order", "The mean pressure lies between the lowest and the highest.", "pressure");
        }

        if (Course.Count > MostMoments || Course.Any(moment => moment.Milliseconds < 0))
        {
            throw new RefusedException("pressure-course", "The course of the pressure is too long, or begins before its first sample.", "pressure");
        }
    }

    /// <summary>The course as it is stored: <c>0:3200 500:3215</c>, ms and Pa.</summary>
    internal string? CourseText() => Course.Count == 0 ? null : string.Join(' ', Course.Select(moment => string.Create(CultureInfo.InvariantCulture, $"{moment.Milliseconds}:{moment.Pressure.Pascals}")));

    /// <summary>Reads a stored course.</summary>
    internal static IReadOnlyList<PressureMoment> ReadCourse(string? stored) => stored is null
        ? []
        : [.. stored.Split(' ').Select(part => part.Split(':')).Select(pair => new PressureMoment(int.Parse(pair[0], CultureInfo.InvariantCulture), Pressure.FromPascals(long.Parse(pair[1], CultureInfo.InvariantCulture))))];

    private static IReadOnlyList<PressureMoment> Thinned(IReadOnlyList<PressureMoment> course)
    {
        if (course.Count <= MostMoments)
        {
            return course;
        }

        var size = (int)Math.Ceiling(course.Count / (MostMoments / 2.0));
        return [.. course.Chunk(size).SelectMany(part => new[] { part.MinBy(moment => moment.Pressure.Pascals)!, part.MaxBy(moment => moment.Pressure.Pascals)! }.Distinct().OrderBy(moment => moment.Milliseconds))];
    }
}
