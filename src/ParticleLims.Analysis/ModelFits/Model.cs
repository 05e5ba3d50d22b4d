using ParticleLims.Analysis.Distributions.Rules;

namespace ParticleLims.Analysis.ModelFits;

/// <summary>A distribution with two parameters.</summary>
public enum Model
{
    /// <summary>Rosin-Rammler-Sperling-Bennett: R = exp(-(x/x')^n) (docs/science/rosin-rammler.md).</summary>
    RosinRammler,

    /// <summary>Log-normal: ln x is normally distributed over the mass (docs/science/log-normal.md).</summary>
    LogNormal,

    /// <summary>Gates-Gaudin-Schuhmann: Q = (x/k)^m up to the top size k (docs/science/gates-gaudin-schuhmann.md).</summary>
    GatesGaudinSchuhmann,
}

/// <summary>How a model is drawn and called.</summary>
internal static class ModelWords
{
    /// <summary>The net in which the model is a straight line of which the ordinate is zero at its position.</summary>
    public static Net NetOf(Model model) => model switch
    {
        Model.RosinRammler => Net.RosinRammler,
        Model.LogNormal => Net.LogNormal,
        Model.GatesGaudinSchuhmann => Net.GatesGaudinSchuhmann,
        _ => throw new ArgumentOutOfRangeException(nameof(model), model, "The model is none of the named ones."),
    };

    public static string NameOf(Model model) => model switch
    {
        Model.RosinRammler => "Rosin-Rammler",
        Model.LogNormal => "log-normal",
        Model.GatesGaudinSchuhmann => "Gates-Gaudin-Schuhmann",
        _ => throw new ArgumentOutOfRangeException(nameof(model), model, "The model is none of the named ones."),
    };
}
