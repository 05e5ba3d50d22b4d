using ParticleLims.Analysis.Quantities;

namespace ParticleLims.Analysis.Weighings;

/// <summary>A cut with its place in the request, so that a message can name it after sorting.</summary>
internal sealed record OrderedCut(int Index, CutInput Input)
{
    public Aperture Aperture => Input.Aperture;

    public Mass Empty => Input.Empty.GetValueOrDefault();

    public Mass Loaded => Input.Loaded.GetValueOrDefault();

    public Mass After => Input.After.GetValueOrDefault();

    public string Member(string name) => $"cuts[{Index}].{name}";
}
