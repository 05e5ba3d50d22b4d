using System.Globalization;
using Microsoft.EntityFrameworkCore;
using ParticleLims.Analysis.Distributions;
using ParticleLims.Analysis.ModelFits;
using ParticleLims.Analysis.Quantities;
using ParticleLims.Laboratory.Dispositions;
using ParticleLims.Laboratory.Lots;
using ParticleLims.Laboratory.Methods;
using ParticleLims.Laboratory.Products;
using ParticleLims.Laboratory.Record;
using ParticleLims.Laboratory.Runs;
using ParticleLims.Laboratory.Samples;
using ParticleLims.Laboratory.Settings;
using ParticleLims.Laboratory.Specifications;
using ParticleLims.Laboratory.Storage;

namespace ParticleLims.Laboratory.Certificates;

/// <summary>Freezes what a certificate says: every value in its printed form, taken from signed and accepted records.</summary>
internal static class CertificateFreezing
{
    /// <summary>The software's version as printed.</summary>
    private static readonly string SoftwareVersion = $"ParticleLims {typeof(CertificateFreezing).Assembly.GetName().Version?.ToString(3)}";

    public static async Task<CertificateContent> FreezeAsync(
        LaboratoryContext data, Lot lot, SampleResult result, LotEvidence evidence, string? number, string? verifyAddress, DateTimeOffset at, CancellationToken cancellation)
    {
        var settings = await SettingsKeeping.OfAsync(data, cancellation);
        var sample = await data.Samples.AsNoTracking().SingleAsync(sample => sample.Id == result.SampleId, cancellation);
        var product = await data.Products.AsNoTracking().SingleAsync(product => product.Id == lot.ProductId, cancellation);
        var method = await data.MethodVersions.AsNoTracking().SingleAsync(method => method.Id == sample.MethodVersionId, cancellation);
        var methodDocument = await data.Methods.AsNoTracking().SingleAsync(document => document.Id == method.DocumentId, cancellation);
        var specificationDocument = await data.Specifications.AsNoTracking().SingleAsync(document => document.Id == result.Specification.DocumentId, cancellation);
        var runs = await RunsAsync(data, result, cancellation);
        var head = await data.Events.AsNoTracking().OrderByDescending(one => one.Sequence).Select(one => new RecordHead(one.Sequence, one.Hash)).FirstAsync(cancellation);
        return new CertificateContent
        {
            Number = number, Revision = 1, Demonstration = settings.Demonstration,
            Issuer = new Party(settings.Name, Lines(settings.Address), settings.Contact),
            Customer = await CustomerAsync(data, lot, cancellation),
            Product = ProductOf(lot, product),
            Sample = SampleOf(sample, runs),
            Specification = new DocumentIdentity(specificationDocument.Code, specificationDocument.Title, result.Specification.Number, DateOnly.FromDateTime(result.Specification.InForceFrom!.Value.UtcDateTime)),
            Method = new DocumentIdentity(methodDocument.Code, methodDocument.Title, method.Number, DateOnly.FromDateTime(method.InForceFrom!.Value.UtcDateTime)),
            Results = [.. result.Limits.Where(judged => judged.Limit.Printed).Select(ResultOf)],
            Sieves = SievesOf(result, await StandardsAsync(data, runs, cancellation)),
            Basis = CertificateWords.Basis(method, result),
            Replicates = [.. result.Replicates.Select(replicate => new ReplicateLine(replicate.Run.Number, CertificateWords.Values(replicate, result.Limits)))],
            Conditions = CertificateWords.Conditions(method, runs, sample),
            Equipment = await EquipmentAsync(data, runs, cancellation),
            Curve = CurveOf(result), Measurements = MeasurementsFreezing.Of(result, method),
            Conformity = CertificateWords.Conformity(result, specificationDocument.Code, lot.State),
            DecisionRule = CertificateWords.DecisionRule([.. result.Limits.Where(judged => judged.Limit.Printed).Select(judged => judged.Limit)]),
            Remarks = [.. CertificateWords.Remarks(evidence, settings), .. await OverridesAsync(data, runs, cancellation)],
            Signatures = await SignaturesAsync(data, evidence, runs, cancellation),
            IssuedAt = at, TimeZone = settings.TimeZone, VerifyAddress = verifyAddress, RecordHead = head, SoftwareVersion = SoftwareVersion, EngineVersion = Analysis.Engine.Version,
        };
    }

    private static Task<List<Run>> RunsAsync(LaboratoryContext data, SampleResult result, CancellationToken cancellation)
    {
        var ids = result.Replicates.Select(replicate => replicate.Run.Id).ToList();
        return data.Runs.AsNoTracking().Whole().Where(run => ids.Contains(run.Id)).OrderBy(run => run.Number).ToListAsync(cancellation);
    }

    private static async Task<Party> CustomerAsync(LaboratoryContext data, Lot lot, CancellationToken cancellation) =>
        await data.Set<Customers.Customer>().AsNoTracking().FirstOrDefaultAsync(customer => customer.Id == lot.CustomerId, cancellation) is { } customer
            ? new Party(customer.Name, Lines(customer.Address), customer.Contact)
            : new Party("Stock, no customer named", [], string.Empty);

    private static ProductIdentity ProductOf(Lot lot, Product product) => new(
        product.Code, product.Name, lot.Number, lot.MadeOn, string.Create(CultureInfo.InvariantCulture, $"{lot.QuantityKilograms:0.###} kg"), lot.CustomerReference);

    private static SampleIdentity SampleOf(Sample sample, List<Run> runs) => new(
        sample.Code, sample.Description, sample.ConditionOnReceipt, sample.TakenAt, sample.TakenBy, sample.SamplingWay, sample.ReceivedAt,
        runs.Min(run => run.StartedAt)!.Value, runs.Max(run => run.SubmittedAt)!.Value);

    private static ResultLine ResultOf(JudgedLimit judged) => new(
        judged.Limit.Words, judged.Limit.Unit, Bound(judged.Limit.Lower, judged.Limit), Bound(judged.Limit.Upper, judged.Limit), judged.Printed, PrintedUncertainty(judged), CertificateWords.Of(judged.Verdict.Verdict));

    /// <summary>Printed where the decision depends on it (ISO/IEC 17025:2017, 7.8.3.1 c).</summary>
    private static string? PrintedUncertainty(JudgedLimit judged) => judged.Limit.Rule == LimitRule.Simple || judged.Verdict.ExpandedUncertainty is not { } expanded ? null : UncertaintyWords.PlusMinus(expanded, "1");

    private static string Bound(decimal? bound, Limit limit) => bound is { } value ? Ratio.FromDecimal(value).ToString(limit.Digits, Rounding.HalfEven) : "–";

    private static async Task<Dictionary<string, string>> StandardsAsync(LaboratoryContext data, List<Run> runs, CancellationToken cancellation)
    {
        var ids = runs.SelectMany(run => run.Sieves.Select(sieve => sieve.SieveId)).Distinct().ToList();
        return await data.Set<Laboratory.Sieves.TestSieve>().Where(sieve => ids.Contains(sieve.Id)).ToDictionaryAsync(sieve => sieve.Serial, sieve => sieve.Standard, cancellation);
    }

    private static List<SieveLine> SievesOf(SampleResult result, Dictionary<string, string> standards) =>
    [
        .. from replicate in result.Replicates
           from cut in replicate.Evaluation.Result.Cuts
           group (cut, replicate.Run) by cut.Aperture into at
           orderby at.Key descending
           let serials = at.Select(one => one.Run.Sieves.Single(sieve => sieve.Aperture == at.Key).SieveSerial).Distinct().ToList()
           let count = Ratio.Of(at.Count(), 1)
           let residue = at.Aggregate(Ratio.Zero, (sum, one) => sum + Ratio.Of(one.cut.Residue!.Value.Micrograms, 1_000_000)) / count
           let passing = at.Aggregate(Ratio.Zero, (sum, one) => sum + one.cut.PassingPercent) / count
           select new SieveLine(
               at.Key.ToString(), string.Join(", ", serials), string.Join(", ", serials.Select(serial => standards[serial]).Distinct()),
               residue.ToString(3, Rounding.HalfEven), (Ratio.Hundred - passing).ToString(2, Rounding.HalfEven), passing.ToString(2, Rounding.HalfEven)),
    ];

    private static async Task<List<string>> EquipmentAsync(LaboratoryContext data, List<Run> runs, CancellationToken cancellation)
    {
        var ids = runs.Select(run => run.BalanceId).Distinct().ToList();
        var balances = await data.Set<Balances.Balance>().AsNoTracking().Where(balance => ids.Contains(balance.Id)).OrderBy(balance => balance.Serial).ToListAsync(cancellation);
        return balances.ConvertAll(balance => string.Create(CultureInfo.InvariantCulture, $"Balance {balance.Name}, serial number {balance.Serial}, readability {balance.Readability.Grams:0.######} g"));
    }

    private static async Task<List<string>> OverridesAsync(LaboratoryContext data, List<Run> runs, CancellationToken cancellation)
    {
        var ids = runs.ConvertAll(run => run.Id);
        return (await data.Set<FitnessOverride>().AsNoTracking().Where(one => ids.Contains(one.RunId)).OrderBy(one => one.At).ToListAsync(cancellation)).ConvertAll(one => one.Words);
    }

    private static CurveContent CurveOf(SampleResult result)
    {
        var points = (from replicate in result.Replicates
                      from cut in replicate.Evaluation.Result.Cuts
                      group cut.PassingPercent.ToDouble() by cut.Aperture into at
                      orderby at.Key
                      select new CurvePointContent((double)at.Key.Micrometres, at.Average(), null)).ToList();
        var models = result.Replicates.SelectMany(replicate => replicate.Evaluation.Result.Models.Where(model => model is { Model: Model.RosinRammler, Method: FitMethod.StraightLine })).ToList();
        return new CurveContent(
            points, [.. result.Limits.Where(judged => judged.Limit.Printed).Select(Gate).OfType<CurveGateContent>()], Marks(result),
            models.Count == result.Replicates.Count && models.Count > 0 ? new CurveModelContent(models.Average(model => model.SizeMicrometres), models.Average(model => model.Slope)) : null);
    }

    private static CurveGateContent? Gate(JudgedLimit judged)
    {
        var (limit, lower, upper) = (judged.Limit, (double?)judged.Limit.Lower, (double?)judged.Limit.Upper);
        return limit.Characteristic switch
        {
            LimitCharacteristic.Passing => new CurveGateContent(Window(limit), (double)limit.Aperture!.Value.Micrometres, null, lower, upper),
            LimitCharacteristic.Retained => new CurveGateContent($"retained {Window(limit)}", (double)limit.Aperture!.Value.Micrometres, null, 100 - upper, 100 - lower),
            LimitCharacteristic.Percentile => new CurveGateContent($"{limit.Words} {Window(limit)}", null, (double)limit.Percent!.Value, lower, upper),
            _ => null,
        };
    }

    /// <summary>What may lie between the bounds, short enough to stand beside the curve.</summary>
    private static string Window(Limit limit) => (limit.Lower, limit.Upper) switch
    {
        ({ }, { }) => $"{Bound(limit.Lower, limit)} to {Bound(limit.Upper, limit)} {limit.Unit}",
        ({ }, null) => $"≥ {Bound(limit.Lower, limit)} {limit.Unit}",
        _ => $"≤ {Bound(limit.Upper, limit)} {limit.Unit}",
    };

    private static List<CurveMarkContent> Marks(SampleResult result) =>
    [
        .. from replicate in result.Replicates
           from percentile in replicate.Evaluation.Result.Percentiles
           group percentile by percentile.Percent into at
           where at.All(percentile => percentile.Relation == Relation.Equal)
           orderby at.Key
           select new CurveMarkContent(string.Create(CultureInfo.InvariantCulture, $"D{at.Key:0.###}"), (double)at.Key, at.Average(percentile => percentile.Micrometres)),
    ];

    private static async Task<List<SignatureLine>> SignaturesAsync(LaboratoryContext data, LotEvidence evidence, List<Run> runs, CancellationToken cancellation)
    {
        var runIds = runs.ConvertAll(run => run.Id);
        var ids = evidence.Dispositions.Select(disposition => disposition.SignatureId).TakeLast(1).ToList();
        var signatures = await data.Signatures.AsNoTracking().Where(signature => ids.Contains(signature.Id) || runIds.Contains(signature.SubjectId))
            .OrderByDescending(signature => runIds.Contains(signature.SubjectId)).ThenBy(signature => signature.At).ThenBy(signature => signature.Id).ToListAsync(cancellation);
        var performed = runs.GroupBy(run => run.SubmittedByName!).Select(group => new SignatureLine("performed", group.Key, "Laboratory", group.Max(run => run.SubmittedAt!.Value)));
        return [.. performed, .. signatures.GroupBy(signature => (signature.Meaning, signature.PrintedName)).Select(group => group.Last()).Select(signature => new SignatureLine(signature.Meaning, signature.PrintedName, signature.Function, signature.At))];
    }

    private static string[] Lines(string address) => address.Split('\n', StringSplitOptions.TrimEntries | StringSplitOptions.RemoveEmptyEntries);
}
