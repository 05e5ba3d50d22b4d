using ParticleLims.Analysis;
using ParticleLims.Analysis.Conformity;
using ParticleLims.Analysis.Quantities;
using ParticleLims.Analysis.Uncertainty;
using ParticleLims.Analysis.Weighings;

namespace ParticleLims.Web.Evaluations;

/// <summary>Turns a question into the engine's request; collects, by JSON path, every quantity that is out of range or too fine.</summary>
internal sealed class QuestionReading
{
    private readonly Dictionary<string, string[]> errors = [];

    /// <summary>What is wrong, by JSON path.</summary>
    public IReadOnlyDictionary<string, string[]> Errors => errors;

    public EvaluationRequest Read(EvaluationQuestion question) => new()
    {
        Procedure = question.Procedure,
        Cuts = [.. question.Cuts.Select((cut, index) => Cut(cut, $"$.cuts[{index}]"))],
        Portion = Grams(question.PortionGrams, "$.portionGrams"),
        Receiver = question.Receiver is { } receiver
            ? new ReceiverInput { Empty = Grams(receiver.EmptyGrams, "$.receiver.emptyGrams") ?? Mass.Zero, After = Grams(receiver.AfterGrams, "$.receiver.afterGrams") ?? Mass.Zero }
            : null,
        Collected = Grams(question.CollectedGrams, "$.collectedGrams"),
        Settings = Settings(question.Settings),
        Uncertainty = question.Uncertainty is { } uncertainty ? Uncertainty(uncertainty) : null,
        Limits = [.. (question.Limits ?? []).Select((limit, index) => Limit(limit, $"$.limits[{index}]"))],
    };

    private CutInput Cut(CutQuestion cut, string path) => new()
    {
        Aperture = Micrometres(cut.ApertureMicrometres, path + ".apertureMicrometres") ?? default,
        Empty = Grams(cut.EmptyGrams, path + ".emptyGrams"),
        Loaded = Grams(cut.LoadedGrams, path + ".loadedGrams"),
        After = Grams(cut.AfterGrams, path + ".afterGrams"),
        PassingPercent = cut.PassingPercent,
        PassingStandardUncertaintyPercent = cut.PassingStandardUncertaintyPercent,
        EffectiveAperture = Micrometres(cut.EffectiveApertureMicrometres, path + ".effectiveApertureMicrometres"),
        ApertureStandardUncertainty = Micrometres(cut.ApertureStandardUncertaintyMicrometres, path + ".apertureStandardUncertaintyMicrometres"),
        LastIntervalChange = Grams(cut.LastIntervalChangeGrams, path + ".lastIntervalChangeGrams"),
    };

    private static EvaluationSettings Settings(SettingsQuestion? asked)
    {
        var usual = new EvaluationSettings();
        return asked is null ? usual : usual with
        {
            Basis = asked.Basis ?? usual.Basis, Interpolation = asked.Interpolation ?? usual.Interpolation, Apertures = asked.Apertures ?? usual.Apertures,
            Percentiles = asked.Percentiles ?? usual.Percentiles, TrueDensityGramsPerCubicCentimetre = asked.TrueDensityGramsPerCubicCentimetre, ShapeFactor = asked.ShapeFactor,
            TransferLoss = asked.TransferLoss ?? usual.TransferLoss, Rounding = asked.Rounding ?? usual.Rounding,
        };
    }

    private UncertaintyInput Uncertainty(UncertaintyQuestion asked) => new()
    {
        BalanceRepeatability = Grams(asked.BalanceRepeatabilityGrams, "$.uncertainty.balanceRepeatabilityGrams") ?? Mass.Zero,
        Readability = Grams(asked.ReadabilityGrams, "$.uncertainty.readabilityGrams") ?? Mass.Zero,
        Linearity = Grams(asked.LinearityGrams, "$.uncertainty.linearityGrams") ?? Mass.Zero,
        EmptyDrift = Grams(asked.EmptyDriftGrams, "$.uncertainty.emptyDriftGrams") ?? Mass.Zero, PortionStandardUncertaintyPercent = asked.PortionStandardUncertaintyPercent,
        Method = asked.Method, Trials = asked.Trials, StableDigits = asked.StableDigits, Seed = asked.Seed, Coverage = asked.Coverage,
    };

    private LimitInput Limit(LimitQuestion asked, string path) => new()
    {
        Characteristic = asked.Characteristic, Percent = asked.Percent, Aperture = Micrometres(asked.ApertureMicrometres, path + ".apertureMicrometres"),
        Lower = asked.Lower, Upper = asked.Upper, Digits = asked.Digits, Rule = asked.Rule, GuardFactor = asked.GuardFactor,
    };

    private Mass? Grams(decimal? grams, string path) => Quantity(grams, path, Mass.FromGrams);

    private Aperture? Micrometres(decimal? micrometres, string path) => Quantity(micrometres, path, Aperture.FromMicrometres);

    private T? Quantity<T>(decimal? value, string path, Func<decimal, T> make)
        where T : struct
    {
        if (value is not { } number)
        {
            return null;
        }

        try
        {
            return make(number);
        }
        catch (ArgumentOutOfRangeException fault)
        {
            errors[path] = [fault.Message.Split(Environment.NewLine)[0].Split(" (Parameter")[0]];
            return null;
        }
    }
}
