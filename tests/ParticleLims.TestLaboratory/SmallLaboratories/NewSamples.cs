using ParticleLims.Laboratory.Samples;

namespace ParticleLims.TestLaboratory.SmallLaboratories;

/// <summary>Samples that arrive otherwise than usual.</summary>
public static class NewSamples
{
    /// <summary>The same sample with other particulars.</summary>
    public static NewSample Arriving(this NewSample sample, Func<SampleParticulars, SampleParticulars> change) => sample with { Particulars = change(sample.Particulars) };
}
