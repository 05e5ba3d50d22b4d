using ParticleLims.Laboratory.Methods;
using ParticleLims.Laboratory.Runs;
using ParticleLims.Pictures.Plots;

namespace ParticleLims.Web.Runs;

/// <summary>The course of a pressure as a picture.</summary>
internal static class PressureStripOf
{
    /// <summary>The strip of a course with the method's band.</summary>
    public static PressureStrip Course(string title, IReadOnlyList<PressureMoment> course, MethodVersion method) => new()
    {
        Title = title,
        Points = [.. course.Select(moment => new PressureStripPoint(moment.Milliseconds / 1_000.0, (double)moment.Pressure.Kilopascals))],
        LowestKilopascals = (double?)method.PressureLowest?.Kilopascals,
        HighestKilopascals = (double?)method.PressureHighest?.Kilopascals,
    };
}
