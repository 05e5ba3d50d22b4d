using ParticleLims.Laboratory.Samples;

namespace ParticleLims.Web.Controls;

/// <summary>What arrived, in words.</summary>
public static class SamplingWords
{
    /// <summary>"5 increments; 312 g; bags 3, 11, 19".</summary>
    public static string Arrived(Sample sample)
    {
        ArgumentNullException.ThrowIfNull(sample);
        string?[] words = [sample.Increments is { } count ? Say.Count(count, "increment", "increments") : "increments not known", sample.Mass is { } mass ? $"{NumberReading.Write(mass.Grams)} g" : "not weighed", sample.Recorded];
        return string.Join("; ", words.OfType<string>());
    }
}
