using Microsoft.EntityFrameworkCore;
using ParticleLims.Analysis.Distributions;
using ParticleLims.Analysis.ModelFits;
using ParticleLims.Laboratory.Certificates.Texts;
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

    /// <summary>Freezes a certificate of one sample or of several, in the order given; all of one customer.</summary>
    public static async Task<CertificateContent> FreezeAsync(LaboratoryContext data, IReadOnlyList<CertificateSubject> subjects, CertificateFrame frame, CancellationToken cancellation)
    {
        var settings = await SettingsKeeping.OfAsync(data, cancellation);
        var head = await data.Events.AsNoTracking().OrderByDescending(one => one.Sequence).Select(one => new RecordHead(one.Sequence, one.Hash)).FirstAsync(cancellation);
        var (items, signatures) = (new List<CertificateItem>(), new List<SignatureLine>());
        foreach (var subject in subjects)
        {
            var runs = await RunsAsync(data, subject.Result, cancellation);
            items.Add(await ItemAsync(data, subject, runs, settings, frame, cancellation));
            signatures.AddRange(await SignaturesAsync(data, subject.Evidence, runs, frame.Texts, cancellation));
        }

        var (texts, first) = (frame.Texts, items[0]);
        return new CertificateContent
        {
            FormatVersion = items.Count == 1 ? 1 : CertificateContent.SeveralSamples, Language = texts.Language, Paper = frame.Wishes.Paper, RosinRammlerNet = frame.Wishes.RosinRammlerNet || frame.Template.Plan.Net, Number = frame.Number, Revision = frame.Revision, Replaces = frame.Replaces, Demonstration = settings.Demonstration,
            Issuer = new Party(settings.Name, Lines(settings.Address), settings.Contact), Customer = await CustomerAsync(data, subjects[0].Lot, texts, cancellation),
            Product = first.Product, Sample = first.Sample, Specification = first.Specification, Method = first.Method, Results = first.Results, Sieves = first.Sieves, Receiver = first.Receiver, Basis = first.Basis, Replicates = first.Replicates,
            Conditions = first.Conditions, Equipment = first.Equipment, Curve = first.Curve, Measurements = first.Measurements, Conformity = first.Conformity, DecisionRule = first.DecisionRule, Remarks = first.Remarks,
            Overall = items.Count == 1 ? null : new CertificateWords(texts).Overall(subjects), Further = items.Count == 1 ? null : items[1..],
            Signatures = items.Count == 1 ? signatures : Merged(signatures),
            IssuedAt = frame.At, TimeZone = settings.TimeZone, VerifyAddress = frame.VerifyAddress, RecordHead = head, SoftwareVersion = SoftwareVersion, EngineVersion = Analysis.Engine.Version,
            Layout = LayoutFreezing.Of(frame.Template, texts.Language, items.Select(item => item.Method.Code), settings.LocalDay(frame.At)),
        };
    }

    private static async Task<CertificateItem> ItemAsync(LaboratoryContext data, CertificateSubject subject, List<Run> runs, LaboratorySettings settings, CertificateFrame frame, CancellationToken cancellation)
    {
        var (lot, result, evidence) = (subject.Lot, subject.Result, subject.Evidence);
        var sample = await data.Samples.AsNoTracking().SingleAsync(sample => sample.Id == result.SampleId, cancellation);
        var product = await data.Products.AsNoTracking().SingleAsync(product => product.Id == lot.ProductId, cancellation);
        var method = await data.MethodVersions.AsNoTracking().SingleAsync(method => method.Id == sample.MethodVersionId, cancellation);
        var methodDocument = await data.Methods.AsNoTracking().SingleAsync(document => document.Id == method.DocumentId, cancellation);
        var specificationDocument = await data.Specifications.AsNoTracking().SingleAsync(document => document.Id == result.Specification.DocumentId, cancellation);
        var (texts, words) = (frame.Texts, new CertificateWords(frame.Texts));
        var printed = result.Limits.Where(judged => judged.Limit.Printed).ToList();
        return new CertificateItem
        {
            Product = ProductOf(lot, product, texts),
            Sample = SampleOf(sample, runs),
            Specification = new DocumentIdentity(specificationDocument.Code, specificationDocument.Title, result.Specification.Number, DateOnly.FromDateTime(result.Specification.InForceFrom!.Value.UtcDateTime)),
            Method = new DocumentIdentity(methodDocument.Code, methodDocument.Title, method.Number, DateOnly.FromDateTime(method.InForceFrom!.Value.UtcDateTime)),
            Results = [.. printed.Select(judged => ResultOf(judged, words, texts, frame.Template.Plan.Uncertainty))],
            Sieves = SieveTable.SievesOf(result, method, await StandardsAsync(data, runs, cancellation), texts), Receiver = SieveTable.ReceiverOf(result, method, texts),
            Basis = words.Basis(method, result),
            Replicates = [.. result.Replicates.Select(replicate => new ReplicateLine(replicate.Run.Number, words.Values(replicate, result.Limits)))],
            Conditions = new CertificateConditions(texts, method, runs).Of(sample),
            Equipment = await EquipmentAsync(data, runs, texts, cancellation),
            Curve = CurveOf(result, words, texts), Measurements = MeasurementsFreezing.Of(result, method, runs, frame.Wishes.Weighings),
            Conformity = words.Conformity(result, specificationDocument.Code, lot.State),
            DecisionRule = words.DecisionRule([.. printed.Select(judged => judged.Limit)]),
            Remarks = [.. words.Remarks(evidence, runs, settings.OnePersonLaboratory || await ByOnePersonAsync(data, evidence, method, result.Specification, cancellation)), .. await OverridesAsync(data, runs, words, cancellation), .. evidence.Samplings.Where(one => one.Sample.Id == result.SampleId).Select(words.Sampled).OfType<string>(), .. printed.SelectMany(words.Determinations)],
        };
    }

    // Who did the same for several samples stands once, with the time of the last.
    private static List<SignatureLine> Merged(List<SignatureLine> signatures) =>
        [.. signatures.GroupBy(one => (one.Meaning, one.PrintedName, one.Function)).Select(group => group.MaxBy(one => one.At)!)];

    private static Task<List<Run>> RunsAsync(LaboratoryContext data, SampleResult result, CancellationToken cancellation)
    {
        var ids = result.Replicates.Select(replicate => replicate.Run.Id).ToList();
        return data.Runs.AsNoTracking().Whole().Where(run => ids.Contains(run.Id)).OrderBy(run => run.Number).ToListAsync(cancellation);
    }

    private static async Task<Party> CustomerAsync(LaboratoryContext data, Lot lot, CertificateTexts texts, CancellationToken cancellation) =>
        await data.Set<Customers.Customer>().AsNoTracking().FirstOrDefaultAsync(customer => customer.Id == lot.CustomerId, cancellation) is { } customer
            ? new Party(customer.Name, Lines(customer.Address), customer.Contact)
            : new Party(texts["stock"], [], string.Empty);

    private static ProductIdentity ProductOf(Lot lot, Product product, CertificateTexts texts) => new(
        product.Code, product.Name, lot.Number, lot.MadeOn, texts.Number(lot.QuantityKilograms, "0.###") + " kg", lot.CustomerReference)
    {
        Identification = product.Identification, Manufacturer = product.Manufacturer, Container = lot.Container, RetestOn = lot.RetestOn, ExpiresOn = lot.ExpiresOn,
    };

    private static SampleIdentity SampleOf(Sample sample, List<Run> runs) => new(
        sample.Code, sample.Description, sample.ConditionOnReceipt, sample.TakenAt, sample.TakenBy, sample.SamplingWay, sample.ReceivedAt,
        runs.Min(run => run.StartedAt)!.Value, runs.Max(run => run.SubmittedAt)!.Value);

    private static ResultLine ResultOf(JudgedLimit judged, CertificateWords words, CertificateTexts texts, bool always) => new(
        words.Of(judged.Limit), judged.Limit.Unit, words.Bound(judged.Limit.Lower, judged.Limit), words.Bound(judged.Limit.Upper, judged.Limit), words.Value(judged), PrintedUncertainty(judged, texts, always),
        words.Of(judged.Verdict.Verdict));

    /// <summary>Printed where the decision depends on it (ISO/IEC 17025:2017, 7.8.3.1 c), and elsewhere where the template asks for it.</summary>
    private static string? PrintedUncertainty(JudgedLimit judged, CertificateTexts texts, bool always) =>
        (judged.Limit.Rule == LimitRule.Simple && !always) || judged.Verdict.ExpandedUncertainty is not { } expanded ? null : texts.Number(UncertaintyWords.PlusMinus(expanded, "1"));

    private static async Task<Dictionary<string, string>> StandardsAsync(LaboratoryContext data, List<Run> runs, CancellationToken cancellation)
    {
        var ids = runs.SelectMany(run => run.Sieves.Select(sieve => sieve.SieveId)).Distinct().ToList();
        return await data.Set<Laboratory.Sieves.TestSieve>().Where(sieve => ids.Contains(sieve.Id)).ToDictionaryAsync(sieve => sieve.Serial, sieve => sieve.Standard, cancellation);
    }

    private static async Task<List<string>> EquipmentAsync(LaboratoryContext data, List<Run> runs, CertificateTexts texts, CancellationToken cancellation)
    {
        var (ids, unitIds) = (runs.Select(run => run.BalanceId).Distinct().ToList(), runs.Select(run => run.SievingUnitId).OfType<Guid>().Distinct().ToList());
        var balances = await data.Set<Balances.Balance>().AsNoTracking().Where(balance => ids.Contains(balance.Id)).OrderBy(balance => balance.Serial).ToListAsync(cancellation);
        var units = await data.Set<SievingUnits.SievingUnit>().AsNoTracking().Where(unit => unitIds.Contains(unit.Id)).OrderBy(unit => unit.Serial).ToListAsync(cancellation);
        return
        [
            .. units.Select(unit => texts.With("equipment.sievingUnit", unit.Name, unit.Serial)),
            .. balances.Select(balance => texts.With("equipment.balance", balance.Name, balance.Serial, texts.Number(balance.Readability.Grams, "0.######"))),
        ];
    }

    private static async Task<List<string>> OverridesAsync(LaboratoryContext data, List<Run> runs, CertificateWords words, CancellationToken cancellation)
    {
        var ids = runs.ConvertAll(run => run.Id);
        return (await data.Set<FitnessOverride>().AsNoTracking().Where(one => ids.Contains(one.RunId)).OrderBy(one => one.At).ToListAsync(cancellation)).ConvertAll(words.Of);
    }

    private static CurveContent CurveOf(SampleResult result, CertificateWords words, CertificateTexts texts)
    {
        var points = (from replicate in result.Replicates
                      from cut in replicate.Evaluation.Result.Cuts
                      group cut.PassingPercent.ToDouble() by cut.Aperture into at
                      orderby at.Key
                      select new CurvePointContent((double)at.Key.Micrometres, at.Average(), null)).ToList();
        var models = result.Replicates.SelectMany(replicate => replicate.Evaluation.Result.Models.Where(model => model is { Model: Model.RosinRammler, Method: FitMethod.StraightLine })).ToList();
        return new CurveContent(
            points, [.. result.Limits.Where(judged => judged.Limit.Printed).Select(judged => Gate(judged, words, texts)).OfType<CurveGateContent>()], Marks(result, texts),
            models.Count == result.Replicates.Count && models.Count > 0 ? new CurveModelContent(models.Average(model => model.SizeMicrometres), models.Average(model => model.Slope)) : null);
    }

    private static CurveGateContent? Gate(JudgedLimit judged, CertificateWords words, CertificateTexts texts)
    {
        var (limit, lower, upper) = (judged.Limit, (double?)judged.Limit.Lower, (double?)judged.Limit.Upper);
        return limit.Characteristic switch
        {
            LimitCharacteristic.Passing => new CurveGateContent(words.Window(limit), (double)limit.Aperture!.Value.Micrometres, null, lower, upper),
            LimitCharacteristic.Retained => new CurveGateContent(texts.With("window.retained", words.Window(limit)), (double)limit.Aperture!.Value.Micrometres, null, 100 - upper, 100 - lower),
            LimitCharacteristic.Percentile => new CurveGateContent($"{words.Of(limit)} {words.Window(limit)}", null, (double)limit.Percent!.Value, lower, upper),
            _ => null,
        };
    }

    private static List<CurveMarkContent> Marks(SampleResult result, CertificateTexts texts) =>
    [
        .. from replicate in result.Replicates
           from percentile in replicate.Evaluation.Result.Percentiles
           group percentile by percentile.Percent into at
           where at.All(percentile => percentile.Relation == Relation.Equal)
           orderby at.Key
           select new CurveMarkContent(texts.With("characteristic.percentile", texts.Number(at.Key, "0.###")), (double)at.Key, at.Average(percentile => percentile.Micrometres)),
    ];

    // Also after the setting was switched off again: what was signed under it stays so.
    private static Task<bool> ByOnePersonAsync(LaboratoryContext data, LotEvidence evidence, MethodVersion method, SpecificationVersion specification, CancellationToken cancellation)
    {
        List<Guid> subjects = [evidence.Lot.Id, method.DocumentId, specification.DocumentId, .. evidence.AllRuns.Select(run => run.Id), .. evidence.Investigations.Select(one => one.Id)];
        return data.Signatures.AnyAsync(signature => subjects.Contains(signature.SubjectId) && signature.Meaning.EndsWith(Signature.OnePersonMark), cancellation);
    }

    private static async Task<List<SignatureLine>> SignaturesAsync(LaboratoryContext data, LotEvidence evidence, List<Run> runs, CertificateTexts texts, CancellationToken cancellation)
    {
        var runIds = runs.ConvertAll(run => run.Id);
        var ids = evidence.Dispositions.Select(disposition => disposition.SignatureId).TakeLast(1).ToList();
        var signatures = await data.Signatures.AsNoTracking().Where(signature => ids.Contains(signature.Id) || runIds.Contains(signature.SubjectId))
            .OrderByDescending(signature => runIds.Contains(signature.SubjectId)).ThenBy(signature => signature.At).ThenBy(signature => signature.Id).ToListAsync(cancellation);
        var performed = runs.GroupBy(run => run.SubmittedByName!).Select(group => new SignatureLine(texts["meaning.performed"], group.Key, texts["function.Laboratory"], group.Max(run => run.SubmittedAt!.Value)));
        return [.. performed, .. signatures.GroupBy(signature => (signature.Meaning, signature.PrintedName)).Select(group => group.Last()).Select(signature => new SignatureLine(texts.OrSame("meaning", signature.Meaning), signature.PrintedName, texts.OrSame("function", signature.Function), signature.At))];
    }

    private static string[] Lines(string address) => address.Split('\n', StringSplitOptions.TrimEntries | StringSplitOptions.RemoveEmptyEntries);
}
