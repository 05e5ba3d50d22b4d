using ParticleLims.Analysis.Quantities;
using ParticleLims.Laboratory.Certificates.Texts;
using ParticleLims.Laboratory.Methods;
using ParticleLims.Laboratory.Runs;
using ParticleLims.Laboratory.Samples;

namespace ParticleLims.Laboratory.Certificates;

/// <summary>How it was tested, a sentence each: time and pressure, end point, what was done before the first sieve, division, reading of the curve.</summary>
internal sealed class CertificateConditions(CertificateTexts texts, MethodVersion method, IReadOnlyList<Run> runs)
{
    public IReadOnlyList<string> Of(Sample sample) =>
    [
        texts.With(method.Procedure == SievingProcedure.NestedStack ? "condition.nestedStack" : "condition.airJet", method.Seconds),
        .. Pressure(),
        EndPointWords(),
        .. Preparations(),
        texts.With("condition.division", texts["division." + MeasurementsFreezing.Name(sample.Division)]),
        texts.With("condition.reading", texts["reading." + MeasurementsFreezing.Name(method.Reading)]),
    ];

    private IEnumerable<string> Pressure()
    {
        var means = runs.SelectMany(run => run.Intervals).Select(interval => interval.PressureMean).OfType<Pressure>().ToList();
        return means.Count == 0 ? [] : [texts.With("condition.pressure", texts.Number(means.Min(pressure => pressure.Kilopascals), "0.0"), texts.Number(means.Max(pressure => pressure.Kilopascals), "0.0"))];
    }

    private string EndPointWords()
    {
        if (method.EndPoint is not { } plan)
        {
            return texts["condition.fixedTime"];
        }

        var missed = from run in runs
                     from change in EndPoint.Changes(run, method)
                     where change.Round == plan.MostIntervals && !change.IsReached
                     let sieve = run.Sieves.Find(sieve => sieve.Position == change.Position)
                     where sieve is not null
                     select $"{run.Number} {texts.Number(sieve.Aperture.ToString())}";
        var places = string.Join(", ", missed);
        return places.Length == 0 ? texts.With("condition.endPoint", plan.IntervalSeconds) : texts.With("condition.endPointMissed", plan.IntervalSeconds, places);
    }

    private IEnumerable<string> Preparations()
    {
        var done = runs.SelectMany(run => run.Preparations).OrderBy(one => one.StartedAt).ToList();
        foreach (var dried in Distinct(done, PreparationKind.Drying))
        {
            yield return texts.With("condition.dried", dried.Minutes, texts.Number($"{dried.Temperature}"));
        }

        foreach (var laidOut in Distinct(done, PreparationKind.Conditioning))
        {
            yield return texts.With("condition.conditioned", laidOut.Minutes);
        }

        if (done.LastOrDefault(one => one.Kind == PreparationKind.RoomConditions) is { Temperature: { } room, HumidityPercent: { } humidity })
        {
            yield return texts.With("condition.room", texts.Number($"{room}"), texts.Number(humidity, "0.###"));
        }

        yield return method.Preparation is { FlowAid: { } aid, FlowAidPercent: { } percent } ? texts.With("condition.flowAid", texts.Number(percent, "0.######"), aid) : texts["condition.noFlowAid"];
    }

    private static IEnumerable<Preparation> Distinct(List<Preparation> done, PreparationKind kind) => done.Where(one => one.Kind == kind && one.Minutes is not null).DistinctBy(one => (one.Minutes, one.Temperature));
}
