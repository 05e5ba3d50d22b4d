using ParticleLims.Analysis.Quantities;

namespace ParticleLims.Analysis.Weighings;

/// <summary>A cut with its place in the request, so that a message can name it after sorting.</summary>
internal sealed record OrderedCut(int Index, CutInput Input)
{
    public Aperture Aperture => Input.Aperture;

    /// <summary>The aperture that counts: the nominal one, or the effective one where the settings say so and there is one.</summary>
    public required Aperture UsedAperture { get; init; }

    public static IReadOnlyList<OrderedCut> Of(EvaluationRequest request) => request.Cuts
        .Select((cut, index) => new OrderedCut(index, cut)
        {
            UsedAperture = request.Settings.Apertures == ApertureChoice.Effective && cut.EffectiveAperture is { } effective ? effective : cut.Aperture,
        })
        .OrderBy(cut => cut.Aperture)
        .ToList();

    public Mass Empty => Input.Empty.GetValueOrDefault();

    public Mass Loaded => Input.Loaded.GetValueOrDefault();

    public Mass After => Input.After.GetValueOrDefault();

    public string Member(string name) => $"cuts[{Index}].{name}";
}
