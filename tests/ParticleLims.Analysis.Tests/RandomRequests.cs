using CsCheck;
using ParticleLims.Analysis.Conformity;
using ParticleLims.Analysis.Distributions;
using ParticleLims.Analysis.Quantities;
using ParticleLims.Analysis.Uncertainty;
using ParticleLims.Analysis.Weighings;

namespace ParticleLims.Analysis.Tests;

/// <summary>Requests at random: sensible ones for the properties, and every kind of nonsense for the refusals.</summary>
internal static class RandomRequests
{
    /// <summary>All five rules.</summary>
    public static readonly Gen<Interpolation> CurveRule = OneOf(Enum.GetValues<Interpolation>());

    private static readonly Gen<decimal> Micrometres = Gen.Int[1_000, 4_000_000].Select(nanometres => nanometres / 1000m);

    /// <summary>Points with percentages that do not decrease.</summary>
    public static readonly Gen<(decimal Micrometres, decimal Percent)[]> Monotone =
        Gen.Select(Micrometres.HashSet[1, 12], Gen.Int[0, 100_000].Array[12]).Select((sizes, percentages) => Points(sizes, percentages));

    /// <summary>Two points or more with percentages that increase.</summary>
    public static readonly Gen<(decimal Micrometres, decimal Percent)[]> Strict =
        Gen.Select(Micrometres.HashSet[2, 12], Gen.Int[1, 99_999].HashSet[12].Select(set => set.ToArray()))
            .Select((sizes, percentages) => Points(sizes, percentages));

    private static readonly Gen<Mass> Tare = Gen.Long[200_000_000, 500_000_000].Select(Mass.FromMicrograms);

    /// <summary>Separate portions that can be evaluated.</summary>
    public static readonly Gen<EvaluationRequest> SeparatePortions =
        Cuts(Gen.Select(Tare, Gen.Long[1, 50_000_000], Gen.Double[0, 1]), (tare, portion, share, _) =>
            (tare, tare + Mass.FromMicrograms(portion), tare + Mass.FromMicrograms((long)(portion * share))))
        .Select(cuts => Requests.Of(Procedure.SeparatePortions, cuts));

    /// <summary>A carried residue that can be evaluated, with and without the transfers weighed.</summary>
    public static readonly Gen<EvaluationRequest> CarriedResidue =
        Gen.Select(Micrometres.HashSet[1, 8], Tare.Array[8], Gen.Double[0, 1].Array[16], Gen.Long[1_000_000, 100_000_000], Gen.Bool)
            .Select((sizes, tares, shares, portion, transfersWeighed) =>
                Requests.Of(Procedure.CarriedResidue, Carried(sizes, tares, shares, portion, transfersWeighed)));

    /// <summary>A nested stack that can be evaluated.</summary>
    public static readonly Gen<EvaluationRequest> NestedStack =
        Gen.Select(
            Cuts(Gen.Select(Tare, Gen.Long[0, 50_000_000], Gen.Double[0, 1]), (tare, mass, _, _) => (tare, null, tare + Mass.FromMicrograms(mass))),
            Tare,
            Gen.Long[1, 50_000_000])
        .Select((cuts, tare, pan) => Requests.Of(Procedure.NestedStack, cuts) with
        {
            Receiver = new ReceiverInput { Empty = tare, After = tare + Mass.FromMicrograms(pan) },
        });

    /// <summary>Any request that can be evaluated.</summary>
    public static readonly Gen<EvaluationRequest> Sensible =
        Gen.OneOf(SeparatePortions, CarriedResidue, NestedStack, Monotone.Select(points => Requests.Given(points)))
            .Select(CurveRule, (request, rule) => request with { Settings = request.Settings with { Interpolation = rule } });

    private static readonly Gen<Mass?> AnyMass = Gen.Frequency(
        (2, OneOf<Mass?>([null])),
        (10, Gen.Long[300_000_000, 310_000_000].Select(micrograms => (Mass?)Mass.FromMicrograms(micrograms))),
        (1, OneOf<Mass?>(Mass.Zero, Mass.FromMicrograms(-1), Mass.FromMicrograms(long.MaxValue), Mass.FromMicrograms(long.MinValue))));

    private static readonly Gen<decimal?> AnyNumber = Gen.Frequency(
        (3, OneOf<decimal?>([null])),
        (5, Gen.Int[0, 1000].Select(tenths => (decimal?)(tenths / 10m))),
        (1, OneOf<decimal?>(-1m, 0m, 100m, 101m, decimal.MaxValue, decimal.MinValue, 0.0000000000000000000000000001m)));

    private static readonly Gen<Aperture> AnyAperture = Gen.Frequency(
        (30, Gen.Int[1, 40].Select(number => Aperture.FromMicrometres(number))),
        (1, OneOf(default, Aperture.FromNanometres(1), Aperture.FromNanometres(long.MaxValue))));

    private static readonly Gen<CutInput> AnyCut = Gen.Select(AnyAperture, AnyMass, AnyMass, AnyMass, AnyNumber, Gen.Int[0, 3])
        .Select((aperture, empty, loaded, after, percent, kind) => kind == 0
            ? new CutInput { Aperture = aperture, PassingPercent = percent }
            : new CutInput
            {
                Aperture = aperture,
                Empty = empty,
                Loaded = kind == 1 ? null : loaded,
                After = after,
                PassingPercent = kind == 3 ? percent : null,
            });

    private static readonly Gen<LimitInput> AnyLimit =
        Gen.Select(Gen.Int[-1, 7], AnyNumber, AnyNumber, AnyNumber, AnyAperture, Gen.Int[-1, 11], Gen.Bool, Gen.Int[-1, 11])
            .Select((characteristic, percent, lower, upper, aperture, digits, complete, rule) => new LimitInput
            {
                Rule = (DecisionRule)Math.Min(rule, rule / 4),
                GuardFactor = rule / 2m,
                Characteristic = (Characteristic)characteristic,
                Percent = complete && characteristic != 0 ? null : percent,
                Aperture = complete && characteristic is not (1 or 2) ? null : aperture,
                Lower = lower,
                Upper = upper,
                Digits = digits,
            });

    /// <summary>A table with an uncertainty of each percentage, and a powder of some density and shape.</summary>
    private static readonly Gen<EvaluationRequest> Weighed =
        Gen.Select(Monotone, Gen.Int[1, 100_000_000], Gen.Int[1, 30_000_000], AnyNumber).Select((points, uncertainty, density, shape) =>
        {
            var request = Requests.Given(points);
            return request with
            {
                Cuts = request.Cuts.Select((cut, i) => cut with { PassingStandardUncertaintyPercent = Math.Max(1, uncertainty >> i) / 1_000_000m }).ToList(),
                Settings = request.Settings with { TrueDensityGramsPerCubicCentimetre = density / 1_000_000m, ShapeFactor = shape },
            };
        });

    /// <summary>Requests of which most cannot be evaluated.</summary>
    private static readonly Gen<EvaluationRequest> Nonsense =
        Gen.Select(Gen.Int[-1, 4], AnyCut.Array[0, 6], AnyLimit.Array[0, 2], Gen.Int[-1, 5], Gen.Int[0, 1], AnyMass, AnyMass, AnyNumber)
            .Select((procedure, cuts, limits, interpolation, basis, portion, receiver, percentile) => new EvaluationRequest
            {
                Procedure = (Procedure)procedure,
                Cuts = cuts,
                Limits = limits,
                Portion = portion,
                WeighingStandardUncertainty = basis == 0 ? Mass.FromGrams(1m) : null,
                Receiver = receiver is { } after ? new ReceiverInput { Empty = Mass.FromGrams(300m), After = after } : null,
                Settings = new EvaluationSettings
                {
                    Interpolation = (Interpolation)interpolation,
                    Basis = (PercentBasis)basis,
                    Percentiles = percentile is { } percent ? [percent] : [],
                },
            });

    /// <summary>Uncertainties of which some are none; trials are few, so that ten thousand requests do not take an hour.</summary>
    private static readonly Gen<UncertaintyInput?> AnyUncertainty =
        Gen.Select(AnyMass, AnyMass, Gen.Int[0, 20_000], AnyNumber, Gen.Int[-1, 40], Gen.Int[0, 12]).Select((repeatability, readability, micrograms, percent, method, digits) => method == 0 ? null : new UncertaintyInput
        {
            BalanceRepeatability = method < 3 ? repeatability.GetValueOrDefault() : Mass.FromMicrograms(micrograms),
            Readability = method < 3 ? readability.GetValueOrDefault() : Mass.FromMicrograms(10 * micrograms),
            EmptyDrift = Mass.FromMicrograms(micrograms / 2),
            PortionStandardUncertaintyPercent = method < 20 ? 0m : Math.Min(50m, Math.Abs(percent.GetValueOrDefault()) / 100m),
            Method = method < 0 ? (UncertaintyMethod)method : method == 7 ? UncertaintyMethod.MonteCarlo : UncertaintyMethod.Analytic,
            Trials = 10_000,
            StableDigits = digits < 10 ? null : digits - 9,
        });

    /// <summary>Any request at all.</summary>
    public static readonly Gen<EvaluationRequest> Any = Gen.OneOf(
        Nonsense,
        Weighed,
        Gen.Select(Gen.OneOf(Sensible, Weighed), AnyUncertainty, AnyLimit.Array[0, 2], Gen.Int[0, 500], Gen.Bool).Select((request, uncertainty, limits, perMille, effective) => request with
        {
            Uncertainty = uncertainty,
            Limits = limits,
            Settings = request.Settings with { Apertures = effective ? ApertureChoice.Effective : ApertureChoice.Nominal, TrueDensityGramsPerCubicCentimetre = 2.71m },
            Cuts = request.Cuts.Select(cut => cut with
            {
                ApertureStandardUncertainty = perMille == 0 ? null : Aperture.FromNanometres(Math.Max(1, cut.Aperture.Nanometres * perMille / 1_000)),
                EffectiveAperture = effective ? Aperture.FromNanometres(cut.Aperture.Nanometres + (perMille / 10)) : null,
            }).ToList(),
        }),
        Gen.Select(Sensible, AnyLimit.Array[0, 1], AnyNumber, (request, limits, percentile) => request with
        {
            Limits = limits,
            Settings = request.Settings with { Percentiles = percentile is { } percent ? [percent] : [] },
        }),
        Gen.Select(Sensible, AnyCut, AnyMass, (request, cut, mass) => request with
        {
            Cuts = [.. request.Cuts, cut],
            WeighingStandardUncertainty = mass,
        }));

    /// <summary>One of some values.</summary>
    public static Gen<T> OneOf<T>(params T[] values) => Gen.Int[0, values.Length - 1].Select(i => values[i]);

    private static Gen<CutInput[]> Cuts(
        Gen<(Mass Tare, long Mass, double Share)> weighings, Func<Mass, long, double, int, (Mass Empty, Mass? Loaded, Mass After)> weigh) =>
        Gen.Select(Micrometres.HashSet[1, 8], weighings.Array[8]).Select((sizes, values) => sizes.Select((size, i) =>
        {
            var (empty, loaded, after) = weigh(values[i].Tare, values[i].Mass, values[i].Share, i);
            return new CutInput { Aperture = Aperture.FromMicrometres(size), Empty = empty, Loaded = loaded, After = after };
        }).ToArray());

    private static CutInput[] Carried(HashSet<decimal> sizes, Mass[] tares, double[] shares, long portion, bool transfersWeighed)
    {
        var carried = portion;
        return sizes.Order().Select((size, i) =>
        {
            var arrived = i > 0 && transfersWeighed ? (long)(carried * (0.99 + (shares[i + 8] / 100))) : carried;
            carried = (long)(arrived * shares[i]);
            return new CutInput
            {
                Aperture = Aperture.FromMicrometres(size),
                Empty = tares[i],
                Loaded = i == 0 || transfersWeighed ? tares[i] + Mass.FromMicrograms(arrived) : null,
                After = tares[i] + Mass.FromMicrograms(carried),
            };
        }).ToArray();
    }

    private static (decimal Micrometres, decimal Percent)[] Points(HashSet<decimal> sizes, int[] percentages)
    {
        var ordered = percentages.Take(sizes.Count).Order().ToArray();
        return sizes.Order().Select((size, i) => (size, ordered[i] / 1000m)).ToArray();
    }
}
