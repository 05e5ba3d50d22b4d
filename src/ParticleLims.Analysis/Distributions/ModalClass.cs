using ParticleLims.Analysis.Quantities;

namespace ParticleLims.Analysis.Distributions;

/// <summary>The class in which the density q3*(ln x) is highest; of several as high the finest (docs/science/mode.md).</summary>
public sealed record ModalClass
{
    /// <summary>Its finer aperture.</summary>
    public required Aperture From { get; init; }

    /// <summary>Its coarser aperture.</summary>
    public required Aperture To { get; init; }

    /// <summary>The mode: the geometric middle of the class in micrometres (µm).</summary>
    public required double ModeMicrometres { get; init; }

    /// <summary>The density q3*(ln x) there, without unit.</summary>
    public required double LogarithmicDensity { get; init; }

    /// <summary>Null where no mass lies between two apertures.</summary>
    internal static ModalClass? Of(IReadOnlyList<SizeClass> classes)
    {
        var highest = classes.Where(one => one.Bounds is not null && one.Percent.Sign > 0).MaxBy(one => one.LogarithmicDensity);
        return highest is { From: { } from, To: { } to, Bounds: { } bounds, LogarithmicDensity: { } density }
            ? new ModalClass { From = from, To = to, ModeMicrometres = Math.Sqrt(bounds.From * bounds.To), LogarithmicDensity = density }
            : null;
    }
}
