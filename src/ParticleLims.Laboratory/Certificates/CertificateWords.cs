using ParticleLims.Analysis.Conformity;
using ParticleLims.Analysis.Quantities;
using ParticleLims.Laboratory.Certificates.Texts;
using ParticleLims.Laboratory.Dispositions;
using ParticleLims.Laboratory.Lots;
using ParticleLims.Laboratory.Methods;
using ParticleLims.Laboratory.Runs;
using ParticleLims.Laboratory.Specifications;

namespace ParticleLims.Laboratory.Certificates;

/// <summary>The sentences of a certificate in its language.</summary>
internal sealed class CertificateWords(CertificateTexts texts)
{
    /// <summary>The rules of the printed limits in words (ISO/IEC 17025 7.8.6.2); where they differ, each says for which limits.</summary>
    public string DecisionRule(IReadOnlyList<Limit> limits)
    {
        if (limits.All(limit => limit.Rule == LimitRule.Simple))
        {
            return texts["rule.simpleAll"];
        }

        var rules = limits.GroupBy(limit => (limit.Rule, limit.GuardFactor)).OrderBy(group => group.Key).Select(group => $"{string.Join(", ", group.Select(Of))}: {Sentence(group.Key.Rule, group.Key.GuardFactor)}");
        return string.Join(' ', rules) + " " + texts["rule.about"];
    }

    private string Sentence(LimitRule rule, decimal factor) => rule switch
    {
        LimitRule.Simple => texts["rule.simple"],
        LimitRule.Guarded => texts.With("rule.guarded", texts.Number(factor, "0.###")),
        LimitRule.FourState => texts.With("rule.fourState", texts.Number(factor, "0.###")),
        _ => throw new ArgumentOutOfRangeException(nameof(rule), rule, "Not a decision rule."),
    };

    /// <summary>What a limit speaks of.</summary>
    public string Of(Limit limit) => limit.Characteristic switch
    {
        LimitCharacteristic.Passing => texts.With("characteristic.passing", ApertureOf(limit)),
        LimitCharacteristic.Retained => texts.With("characteristic.retained", ApertureOf(limit)),
        LimitCharacteristic.Percentile => texts.With("characteristic.percentile", texts.Number(limit.Percent!.Value, "0.###")),
        var other => texts["characteristic." + MeasurementsFreezing.Name(other)],
    };

    private string ApertureOf(Limit limit) => texts.Number(limit.Aperture!.Value.ToString());

    public string Of(Verdict verdict) => texts["verdict." + MeasurementsFreezing.Name(verdict)];

    /// <summary>The value as printed, with its relation.</summary>
    public string Value(JudgedLimit judged) => judged.Verdict.Rounded is null ? texts["value.none"] : texts.Number(judged.Printed);

    public string Basis(MethodVersion method, SampleResult result)
    {
        var basis = texts["basis." + MeasurementsFreezing.Name(method.Procedure)];
        return basis + (method.Procedure == SievingProcedure.NestedStack ? Recovery(result) : MeanPortion(result));
    }

    private string MeanPortion(SampleResult result)
    {
        var portions = result.Replicates.SelectMany(replicate => replicate.Evaluation.Result.Cuts.Select(cut => cut.Portion)).OfType<Mass>().Where(portion => portion > Mass.Zero).ToList();
        return portions.Count == 0 ? string.Empty : texts.With("basis.mean", texts.Number(portions.Average(portion => portion.Grams), "0.000"));
    }

    private string Recovery(SampleResult result)
    {
        var recoveries = result.Replicates.Select(replicate => replicate.Evaluation.Result.RecoveryPercent).OfType<Ratio>().ToList();
        return recoveries.Count == 0 ? string.Empty : texts.With("basis.recovery", texts.Number(recoveries.Average(recovery => recovery.ToDouble()), "0.00"));
    }

    public string Values(EvaluatedRun replicate, IReadOnlyList<JudgedLimit> limits) => string.Join(
        texts.DecimalSign == ',' ? "; " : ", ",
        limits.Zip(replicate.Evaluation.Result.Verdicts, (judged, verdict) => $"{Of(judged.Limit)} {Value(new JudgedLimit(judged.Limit, verdict))}{(judged.Limit.Unit == "1" ? string.Empty : " " + judged.Limit.Unit)}"));

    public string Conformity(SampleResult result, string specification, LotState state)
    {
        var outside = result.Limits.Where(judged => judged.Verdict.Verdict != Verdict.Conforms).Select(judged => Of(judged.Limit)).ToList();
        return outside.Count == 0
            ? texts.With("conformity.all", specification, result.Specification.Number)
            : texts.With("conformity.except", specification, result.Specification.Number, string.Join(", ", outside)) + (state == LotState.ReleasedByConcession ? texts["conformity.concession"] : string.Empty);
    }

    /// <summary>The statement over several samples, naming those with results outside their limits.</summary>
    public string Overall(IReadOnlyList<CertificateSubject> subjects)
    {
        var outside = (from subject in subjects
                       let names = subject.Result.Limits.Where(judged => judged.Verdict.Verdict != Verdict.Conforms).Select(judged => Of(judged.Limit)).ToList()
                       where names.Count > 0
                       select texts.With("conformity.place", subject.Lot.Number, subject.Result.SampleCode, string.Join(", ", names))).ToList();
        return outside.Count == 0 ? texts.With("conformity.several", subjects.Count) : texts.With("conformity.severalExcept", subjects.Count, string.Join("; ", outside));
    }

    /// <summary>What the reader has to know besides: runs that do not count, masses keyed by hand, investigations, concessions.</summary>
    public IReadOnlyList<string> Remarks(LotEvidence evidence, IReadOnlyList<Run> runs, bool byOnePerson) =>
    [
        .. evidence.AllRuns.Where(run => !run.Counts).Select(run => texts.With("remark.run", run.Number, texts["remark." + MeasurementsFreezing.Name(run.State)], run.StateReason)),
        .. from run in runs
           let keyed = run.StandingWeighings.Count(weighing => weighing.WayIn == Balances.WayIn.KeyedByHand)
           where keyed > 0
           select texts.With("remark.keyed", keyed, run.Number),
        .. evidence.Investigations.Where(one => one.IsFull).Select(one => texts.With("remark.investigation", one.Number, one.What, one.ConclusionWords)),
        .. evidence.Dispositions.Where(one => one.Decision == LotState.ReleasedByConcession).Select(one => texts.With("remark.concession", one.Reason)),
        .. byOnePerson ? [texts["remark.onePerson"]] : Array.Empty<string>(),
    ];

    /// <summary>Who accepted a sample although its sampling plan was not carried out, and why; null where nobody had to.</summary>
    public string? Sampled(SampledAs sampled) => sampled is { Acceptance: { } given, Plan: { } plan }
        ? texts.With("remark.sampling", given.SampleCode, given.PersonName, string.Join("; ", plan.ShortfallsOf(sampled.Sample.Increments, sampled.Sample.Mass, sampled.Sample.Recorded).Select(Of)), given.Reason)
        : null;

    private string Of(SamplingShortfall shortfall) => shortfall switch
    {
        IncrementsShort { Taken: { } taken } few => texts.With("sampling.increments", taken, few.Asked),
        IncrementsShort few => texts.With("sampling.incrementsUnknown", few.Asked),
        MassShort { Came: { } came } light => texts.With("sampling.mass", Grams(came), Grams(light.Least)),
        MassShort light => texts.With("sampling.massUnknown", Grams(light.Least)),
        NotWrittenDown missing => texts.With("sampling.notWrittenDown", missing.Asked),
        _ => throw new ArgumentOutOfRangeException(nameof(shortfall), shortfall, "Not a shortfall."),
    };

    private string Grams(Mass mass) => texts.Number(mass.Grams, "0.######") + " g";

    /// <summary>That equipment was used by permission although it was not fit; the cause as it was recorded.</summary>
    public string Of(FitnessOverride one) => texts.With("remark.override", one.RunNumber, one.EquipmentLabel, one.PersonName, one.Unfit, one.Reason);

    /// <summary>Determinations that lie too far apart, or that do not conform each for itself where the specification asks it.</summary>
    public IEnumerable<string> Determinations(JudgedLimit judged)
    {
        var unit = judged.Limit.Unit == "1" ? string.Empty : " " + judged.Limit.Unit;
        if (judged.IsApart)
        {
            yield return texts.With("remark.apart", Of(judged.Limit), string.Join("; ", judged.Determinations.Select(one => $"{one.RunNumber} {texts.Number(one.Printed)}")) + unit);
        }

        foreach (var one in judged.OutByItself)
        {
            yield return texts.With("remark.each", Of(judged.Limit), one.RunNumber, texts.Number(one.Printed) + unit);
        }
    }

    /// <summary>What may lie between the bounds, short enough to stand beside the curve.</summary>
    public string Window(Limit limit) => (limit.Lower, limit.Upper) switch
    {
        ({ }, { }) => texts.With("window.between", Bound(limit.Lower, limit), Bound(limit.Upper, limit), limit.Unit),
        ({ }, null) => $"≥ {Bound(limit.Lower, limit)} {limit.Unit}",
        _ => $"≤ {Bound(limit.Upper, limit)} {limit.Unit}",
    };

    /// <summary>A bound with the digits of its limit; a dash where there is none.</summary>
    public string Bound(decimal? bound, Limit limit) => bound is { } value ? texts.Number(Ratio.FromDecimal(value).ToString(limit.Digits, Rounding.HalfEven)) : "–";
}
