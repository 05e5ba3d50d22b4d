using CsCheck;
using ParticleLims.Analysis.Conformity;
using ParticleLims.Analysis.Conformity.History;
using ParticleLims.Analysis.Distributions;
using ParticleLims.Analysis.Quantities;

namespace ParticleLims.Analysis.Tests.Conformity.History;

public sealed class StoredDistributionsTests
{
    private static readonly Gen<LimitInput> AnyLimit =
        Gen.Select(Gen.Int[0, 3], Gen.Int[1, 99], Gen.Int[1_000, 400_000], Gen.Int[0, 4_000], Gen.Int[0, 4_000], Gen.Int[0, 2], Gen.Bool)
            .Select((kind, percent, aperture, one, other, sides, guarded) => Limit((Characteristic)kind, percent, aperture, Math.Min(one, other), Math.Max(one, other), sides, guarded));

    /// <summary>Percentages with one decimal, and coarse ones, so that rows meet limits and each other exactly.</summary>
    private static readonly Gen<double[][]> Rows =
        Gen.Select(Gen.Int[1, 7], Gen.Int[1, 130], Gen.Int[0, 2]).SelectMany((cuts, rows, grain) =>
            (grain == 0 ? Gen.Int[0, 1000].Select(tenths => tenths / 10.0) : Gen.Int[0, 10].Select(tens => tens * 10.0)).Array[cuts].Select(row => row.Order().ToArray()).Array[rows]);

    [Fact]
    public void Every_row_gets_the_verdict_that_an_evaluation_gives() =>
        Gen.Select(Rows, Gen.Int[1_000, 300_000].HashSet[7], AnyLimit, Gen.Int[0, 50], Gen.OneOf(Gen.Const(Interpolation.LogLinear), Gen.Const(Interpolation.Linear)), Gen.Bool)
            .Sample(
                (rows, sizes, limit, tenths, interpolation, onPoint) =>
                {
                    var apertures = sizes.Order().Take(rows[0].Length).Select(size => Aperture.FromNanometres(size)).ToList();
                    limit = onPoint ? OnPoint(limit, apertures[apertures.Count / 2]) : limit;
                    var stored = new StoredLimit { Limit = limit, ExpandedUncertainty = tenths / 10.0 };
                    var verdicts = Stored(apertures, rows, interpolation).Judge([stored]);
                    for (var row = 0; row < rows.Length; row++)
                    {
                        var value = Value(apertures, rows[row], interpolation, limit);
                        var expected = LimitJudgement.Judge(0, limit, value, new ValueUncertainty(1, stored.ExpandedUncertainty, true, null), Rounding.HalfEven).Verdict;
                        (verdicts.Of(row, 0) == expected || IsNextToABound(value, stored)).ShouldBeTrue($"row {row}: {string.Join(' ', rows[row])}; {verdicts.Of(row, 0)} and not {expected}; {limit}");
                    }
                },
                iter: 2_000);

    [Fact]
    public void All_limits_together_are_missed_by_one_and_undecided_by_one()
    {
        var verdicts = Stored([Micrometres(20m), Micrometres(63m)], [[5, 98], [5, 96], [20, 98], [20, 96]], Interpolation.LogLinear).Judge(
        [
            new StoredLimit { Limit = Limit(Characteristic.Passing, 0, 63_000, 970, 0, 1, false) },
            new StoredLimit { Limit = Limit(Characteristic.Percentile, 10, 0, 100, 0, 1, false) },
        ]);
        Enumerable.Range(0, 4).Select(row => verdicts.Of(row)).ShouldBe([Verdict.Conforms, Verdict.DoesNotConform, Verdict.Undecided, Verdict.DoesNotConform]);
        verdicts.AllLimits.ShouldBe(new VerdictCounts(1, 2, 1));
        verdicts.ByLimit.ShouldBe([new VerdictCounts(2, 2, 0), new VerdictCounts(2, 0, 2)]);
    }

    [Fact]
    public void The_counts_do_not_depend_on_who_does_the_blocks()
    {
        var random = new Random(1);
        var rows = Enumerable.Range(0, 20_001).Select(_ => Enumerable.Range(0, 5).Select(_ => Math.Round(random.NextDouble() * 100, 1)).Order().ToArray()).ToArray();
        var stored = Stored([Micrometres(20m), Micrometres(32m), Micrometres(45m), Micrometres(63m), Micrometres(90m)], rows, Interpolation.LogLinear);
        StoredLimit[] limits = [new() { Limit = Limit(Characteristic.Span, 0, 0, 0, 12, 2, false) }, new() { Limit = Limit(Characteristic.Percentile, 50, 0, 300, 700, 0, true), ExpandedUncertainty = 1.5 }];
        var (alone, together) = (stored.Judge(limits), stored.Judge(limits, (count, work) => Parallel.For(0, count, work)));
        together.ByLimit.ShouldBe(alone.ByLimit);
        Enumerable.Range(0, rows.Length).Count(row => alone.Of(row) == Verdict.Conforms).ShouldBe(together.AllLimits.Conform);
        alone.ByLimit.ShouldAllBe(counts => counts.Conform > 0 && counts.DoNotConform > 0);
        alone.ByLimit[0].Undecided.ShouldBeGreaterThan(0);
    }

    [Fact]
    public void Columns_that_are_no_distributions_are_refused()
    {
        Aperture[] apertures = [Micrometres(20m), Micrometres(63m)];
        Should.Throw<ArgumentException>(() => new StoredDistributions(apertures, [[5, 6]]));
        Should.Throw<ArgumentException>(() => new StoredDistributions(apertures, [[5, 6], [7]]));
        Should.Throw<ArgumentException>(() => new StoredDistributions(apertures, [[5.0], [4.0]])).Message.ShouldContain("distribution 0");
        Should.Throw<ArgumentException>(() => new StoredDistributions(apertures, [[5.0], [double.NaN]]));
        Should.Throw<ArgumentException>(() => new StoredDistributions([apertures[1], apertures[0]], [[5.0], [6.0]]));
        Should.Throw<ArgumentException>(() => new StoredDistributions(apertures, [[5.0], [6.0]], Interpolation.MonotoneCubic));
    }

    [Fact]
    public void Limits_that_a_history_cannot_be_held_against_are_refused()
    {
        var stored = new StoredDistributions([Micrometres(20m)], [[5.0]]);
        var limit = Limit(Characteristic.Passing, 0, 20_000, 1, 0, 1, true);
        Should.Throw<ArgumentException>(() => stored.Judge([]));
        Should.Throw<ArgumentException>(() => stored.Judge([new StoredLimit { Limit = limit with { Rule = DecisionRule.FourState } }]));
        Should.Throw<ArgumentException>(() => stored.Judge([new StoredLimit { Limit = limit, ExpandedUncertainty = -1 }]));
        Should.Throw<ArgumentException>(() => stored.Judge([new StoredLimit { Limit = new LimitInput { Characteristic = Characteristic.RosinRammlerSlope, Lower = 1m } }]));
        Should.Throw<ArgumentException>(() => stored.Judge([new StoredLimit { Limit = limit with { Lower = null } }])).Message.ShouldContain("bound");
        Should.Throw<ArgumentOutOfRangeException>(() => stored.Judge([new StoredLimit { Limit = limit }]).Of(1));
    }

    private static Aperture Micrometres(decimal micrometres) => Aperture.FromMicrometres(micrometres);

    private static StoredDistributions Stored(IReadOnlyList<Aperture> apertures, double[][] rows, Interpolation interpolation) =>
        new(apertures, [.. apertures.Select((_, cut) => rows.Select(row => row[cut]).ToArray())], interpolation);

    /// <summary>Bounds in tenths; 0 for both sides, 1 for the lower alone, 2 for the upper alone.</summary>
    private static LimitInput Limit(Characteristic characteristic, int percent, int nanometres, int lower, int upper, int sides, bool guarded)
    {
        var scale = characteristic == Characteristic.Percentile ? 10m : characteristic == Characteristic.Span ? 10m : 40m;
        scale = characteristic is Characteristic.Passing or Characteristic.Retained && lower <= 1_000 && upper <= 1_000 ? 10m : scale;
        return new LimitInput
        {
            Characteristic = characteristic,
            Percent = characteristic == Characteristic.Percentile ? percent : null,
            Aperture = characteristic is Characteristic.Passing or Characteristic.Retained ? Aperture.FromNanometres(nanometres) : null,
            Lower = sides == 2 ? null : lower / scale,
            Upper = sides == 1 ? null : upper / scale,
            Rule = guarded ? DecisionRule.Guarded : DecisionRule.Simple,
        };
    }

    /// <summary>The same limit at a measured aperture, or with a measured aperture for its lower or upper bound.</summary>
    private static LimitInput OnPoint(LimitInput limit, Aperture aperture) => limit.Characteristic switch
    {
        Characteristic.Percentile when limit.Upper is null => limit with { Lower = aperture.Micrometres },
        Characteristic.Percentile => limit with { Lower = null, Upper = aperture.Micrometres },
        Characteristic.Span => limit,
        _ => limit with { Aperture = aperture },
    };

    private static CharacteristicValue Value(IReadOnlyList<Aperture> apertures, double[] row, Interpolation interpolation, LimitInput limit)
    {
        var points = apertures.Select((aperture, cut) => (aperture, Percent: Ratio.FromDecimal((decimal)row[cut])))
            .Select(point => new CurvePoint { Aperture = point.aperture, MeasuredPercent = point.Percent, PassingPercent = point.Percent });
        return CharacteristicReading.Read(new DistributionCurve([.. points], interpolation), [], null, limit).ShouldNotBeNull();
    }

    /// <summary>A double next to a bound of the accepted values may fall on either side, except where both are exact: a measured percentage by simple acceptance.</summary>
    private static bool IsNextToABound(CharacteristicValue value, StoredLimit limit)
    {
        var band = GuardBand.Of(limit.Limit, limit.ExpandedUncertainty);
        var number = value.Reported.ToDouble();
        return !(value.IsExact && limit.Limit.Rule == DecisionRule.Simple)
            && (Math.Abs(number - band.AcceptanceLower) <= 1e-11 * (1 + Math.Abs(number)) || Math.Abs(number - band.AcceptanceUpper) <= 1e-11 * (1 + Math.Abs(number)));
    }
}
