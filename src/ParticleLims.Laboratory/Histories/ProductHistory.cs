using Microsoft.EntityFrameworkCore;
using ParticleLims.Analysis.Conformity.History;
using ParticleLims.Analysis.Distributions;
using ParticleLims.Analysis.Quantities;
using ParticleLims.Laboratory.Methods;
using ParticleLims.Laboratory.Runs;
using ParticleLims.Laboratory.Storage;

namespace ParticleLims.Laboratory.Histories;

/// <summary>A sample's result in the history: which one, and when.</summary>
internal sealed record PastResult(Guid SampleId, DateTimeOffset At);

/// <summary>Results over the same apertures, read in the same way.</summary>
internal sealed record PastCurves(StoredDistributions Curves, IReadOnlyList<PastResult> Results);

/// <summary>Everything that a product's accepted runs showed: one curve a sample, the mean of its replicates' percentages.</summary>
internal static class ProductHistory
{
    /// <summary>Reads the history, grouped by apertures and by how the curve is read.</summary>
    public static async Task<IReadOnlyList<PastCurves>> OfAsync(LaboratoryContext data, Guid productId, CancellationToken cancellation)
    {
        var rows = await (from run in data.Runs
                          join evaluation in data.Evaluations on run.EvaluationId equals evaluation.Id
                          join method in data.MethodVersions on run.MethodVersionId equals method.Id
                          where run.ProductId == productId && run.State == RunState.Accepted && run.RetestPlanId == null
                          select new { run.SampleId, run.SubmittedAt, method.Reading, evaluation.Curve, evaluation.Id }).AsNoTracking().ToListAsync(cancellation);
        var old = await OldAsync(data, [.. rows.Where(row => row.Curve is null).Select(row => row.Id)], cancellation);
        var samples = rows.Select(row => (row.SampleId, At: row.SubmittedAt!.Value, Reading: row.Reading == CurveReading.Linear ? Interpolation.Linear : Interpolation.LogLinear, Bytes: row.Curve ?? old[row.Id]))
            .GroupBy(row => row.SampleId).Select(same => same.ToList());
        return [.. samples.GroupBy(sample => new SameSizes(sample[0].Bytes, sample[0].Reading)).Select(group => Of(group.Key, [.. group.Select(sample => (sample[0].SampleId, sample.Max(row => row.At), Mean(sample.ConvertAll(row => row.Bytes))))]))];
    }

    // Evaluations from before the curve was kept are computed again.
    private static async Task<Dictionary<Guid, byte[]>> OldAsync(LaboratoryContext data, List<Guid> ids, CancellationToken cancellation)
    {
        var curves = new Dictionary<Guid, byte[]>();
        foreach (var part in ids.Chunk(500))
        {
            foreach (var stored in await data.Evaluations.AsNoTracking().Where(evaluation => part.Contains(evaluation.Id)).ToListAsync(cancellation))
            {
                curves[stored.Id] = StoredCurve.Write(OpenedEvaluation.Of(stored).Result.Curve);
            }
        }

        return curves;
    }

    private static PastCurves Of(SameSizes sizes, List<(Guid SampleId, DateTimeOffset At, double[] Percent)> samples)
    {
        var apertures = sizes.Apertures();
        var columns = apertures.Select((_, point) => samples.Select(sample => sample.Percent[point]).ToArray()).ToList();
        return new PastCurves(new StoredDistributions(apertures, columns, sizes.Reading), samples.ConvertAll(sample => new PastResult(sample.SampleId, sample.At)));
    }

    // Replicates of a sample have one method and so the same apertures; one on sieves with other effective apertures counts by its place.
    private static double[] Mean(List<byte[]> curves)
    {
        var first = curves[0];
        var percent = new double[StoredCurve.Points(first)];
        var alike = curves.FindAll(curve => curve.Length == first.Length);
        for (var point = 0; point < percent.Length; point++)
        {
            percent[point] = Math.Clamp(alike.Average(curve => StoredCurve.Percent(curve, point)), point == 0 ? 0 : percent[point - 1], 100);
        }

        return percent;
    }

    /// <summary>Compares the apertures of two curves.</summary>
    private readonly struct SameSizes(byte[] bytes, Interpolation reading) : IEquatable<SameSizes>
    {
        private readonly byte[] bytes = bytes;

        public Interpolation Reading { get; } = reading;

        public bool Equals(SameSizes other)
        {
            if (Reading != other.Reading || bytes.Length != other.bytes.Length)
            {
                return false;
            }

            for (var point = 0; point < StoredCurve.Points(bytes); point++)
            {
                if (StoredCurve.Size(bytes, point) != StoredCurve.Size(other.bytes, point))
                {
                    return false;
                }
            }

            return true;
        }

        public override bool Equals(object? obj) => obj is SameSizes other && Equals(other);

        public override int GetHashCode() => HashCode.Combine(Reading, bytes.Length, StoredCurve.Size(bytes, 0));

        public List<Aperture> Apertures()
        {
            var sizes = new List<Aperture>();
            for (var point = 0; point < StoredCurve.Points(bytes); point++)
            {
                sizes.Add(StoredCurve.Size(bytes, point));
            }

            return sizes;
        }
    }
}
