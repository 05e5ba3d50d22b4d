using Microsoft.EntityFrameworkCore;
using ParticleLims.Analysis.Quantities;
using ParticleLims.Analysis.Sieves;
using ParticleLims.Laboratory.Balances;
using ParticleLims.Laboratory.Equipment;
using ParticleLims.Laboratory.Record;
using ParticleLims.Laboratory.Settings;
using ParticleLims.Laboratory.Storage;

namespace ParticleLims.Laboratory.Sieves;

/// <summary>What is measured on a sieve and checked with reference materials, newest first.</summary>
/// <param name="Measurements">The measured apertures.</param>
/// <param name="Checks">The checks with reference materials.</param>
/// <param name="Edition">The edition by which it would be judged now.</param>
/// <param name="PermittedMicrometres">How far that edition lets the mean aperture be from nominal, µm; null where it says nothing.</param>
public sealed record SieveMeasured(IReadOnlyList<ApertureMeasurement> Measurements, IReadOnlyList<ReferenceCheck> Checks, string Edition, decimal? PermittedMicrometres);

/// <summary>Keeps measured apertures, reference materials and the checks with them.</summary>
public sealed class SieveMeasuring(WritePath writing, ReadPath reading)
{
    private static readonly DeedKind MeasureDeed = new("sieves.measure", "Sieve's apertures entered", Permission.KeepEquipment);
    private static readonly DeedKind MaterialDeed = new("reference-materials.add", "Reference material added", Permission.KeepEquipment);
    private static readonly DeedKind CheckDeed = new("sieves.reference-check", "Sieve checked with a reference material", Permission.InspectSieves);

    /// <summary>
    /// Enters measured apertures and judges them by the tolerances of the edition. A maker's document with apertures out of tolerance is refused: either a number is wrong or the sieve is not what it
    /// says. The laboratory's own measurement is kept, and takes the sieve out of service. Answers whether it conforms; null where something was not determined.
    /// </summary>
    public Task<bool?> MeasureAsync(Actor actor, Guid sieveId, ApertureCard card, long version, CancellationToken cancellation) =>
        writing.CarryOutAsync(new Deed(MeasureDeed, actor), async (scope, token) =>
        {
            var sieve = await FindAsync(scope, sieveId, version, token);
            return card.Enter(scope, sieve, await ToleranceKeeping.OfAsync(scope.Data, sieve, token), (await SettingsKeeping.OfAsync(scope.Data, token)).LocalDay(scope.Now), MeasureDeed.Words);
        }, cancellation);

    /// <summary>Adds a reference material with the curve of its certificate.</summary>
    public Task<Guid> AddMaterialAsync(Actor actor, MaterialCard card, string? key, CancellationToken cancellation) =>
        writing.CarryOutAsync(new Deed(MaterialDeed, actor, key) { Asked = card }, async (scope, token) =>
        {
            card.Check();
            var (name, batch) = (card.Name.Trim(), card.Batch.Trim());
            if (await scope.Data.ReferenceMaterials.AnyAsync(material => material.Name == name && material.Batch == batch, token))
            {
                throw new RefusedException("material-used", $"There is a reference material {name}, batch {batch}, already.", "batch");
            }

            var added = card.Add(scope);
            scope.About(nameof(ReferenceMaterial), added.Id, added.Label);
            return added.Id;
        }, cancellation);

    /// <summary>Keeps a check of one to ten sievings of a reference material; one that fails takes the sieve out of service. Answers whether it passed.</summary>
    public Task<bool> CheckAsync(Actor actor, Guid sieveId, Guid materialId, Guid balanceId, IReadOnlyList<ReferenceSieving> sievings, long version, string? key, CancellationToken cancellation) =>
        writing.CarryOutAsync(new Deed(CheckDeed, actor, key) { Asked = new { sieveId, materialId, balanceId, sievings } }, async (scope, token) =>
        {
            var sieve = await FindAsync(scope, sieveId, version, token);
            var material = await scope.FindAsync<ReferenceMaterial>(materialId, "reference material", token);
            var balance = await scope.FindKeptAsync<Balance>(balanceId, "balance", token);
            if (material.GoodUntil < (await SettingsKeeping.OfAsync(scope.Data, token)).LocalDay(scope.Now))
            {
                throw new RefusedException("material-expired", $"The certificate of {material.Label} counted until {material.GoodUntil:yyyy-MM-dd}. Take another batch.", "material");
            }

            if (await BalanceRegister.UnfitReasonAsync(scope.Data, balance, scope.Now, token) is { } unfit)
            {
                throw new RefusedException("balance-unfit", unfit, "balance");
            }

            var (passing, uncertainty) = Observed(sievings, balance);
            var found = material.Curve.Read(passing, uncertainty);
            var effective = found.Aperture ?? throw new RefusedException("reference-outside", found.Refusal!, "sievings");
            return await KeepAsync(scope, sieve, material, sievings, (passing, uncertainty), effective, token);
        }, cancellation);

    /// <summary>All reference materials, by name.</summary>
    public Task<List<ReferenceMaterial>> MaterialsAsync(Actor actor, CancellationToken cancellation) =>
        reading.ReadAsync(actor, Permission.SeeLaboratory, (data, _, token) => data.ReferenceMaterials.OrderBy(material => material.Name).ThenBy(material => material.Batch).ToListAsync(token), cancellation);

    /// <summary>The measurements and checks of a sieve, newest first.</summary>
    public Task<SieveMeasured> OfAsync(Actor actor, Guid sieveId, CancellationToken cancellation) =>
        reading.ReadAsync(actor, Permission.SeeLaboratory, async (data, _, token) =>
        {
            var sieve = await data.TestSieves.FirstOrDefaultAsync(one => one.Id == sieveId, token);
            var table = sieve is null ? null : await ToleranceKeeping.OfAsync(data, sieve, token);
            return new SieveMeasured(
                await data.ApertureMeasurements.Where(one => one.SieveId == sieveId).OrderByDescending(one => one.At).ToListAsync(token),
                await data.ReferenceChecks.Where(one => one.SieveId == sieveId).OrderByDescending(one => one.At).ToListAsync(token),
                table?.Edition ?? string.Empty, sieve is null ? null : table?.Find(sieve.Aperture)?.MeanMicrometres);
        }, cancellation);

    /// <summary>The last passed check of a sieve; null where there is none.</summary>
    internal static Task<ReferenceCheck?> LastAsync(LaboratoryContext data, Guid sieveId, CancellationToken cancellation) =>
        data.ReferenceChecks.AsNoTracking().Where(check => check.SieveId == sieveId && check.Passed).OrderByDescending(check => check.At).FirstOrDefaultAsync(cancellation);

    private static async Task<bool> KeepAsync(
        DeedScope scope, TestSieve sieve, ReferenceMaterial material, IReadOnlyList<ReferenceSieving> sievings, (double Passing, double Uncertainty) observed, EffectiveAperture effective, CancellationToken cancellation)
    {
        var earlier = await scope.Data.ReferenceChecks.Where(check => check.SieveId == sieve.Id).OrderBy(check => check.At).Select(check => new { check.Effective, check.Uncertainty }).ToListAsync(cancellation);
        var verdict = ReferenceVerdict.Of(sieve.Aperture, await ToleranceKeeping.OfAsync(scope.Data, sieve, cancellation), effective, [.. earlier.Select(one => (one.Effective, one.Uncertainty))]);
        scope.Data.Add(new ReferenceCheck
        {
            Id = scope.NewId(), SieveId = sieve.Id, MaterialId = material.Id, MaterialLabel = material.Label, At = scope.Now, PersonName = scope.By.Name, Sievings = string.Join('\n', sievings),
            PassingPercent = decimal.Round((decimal)observed.Passing, 6), PassingUncertaintyPercent = decimal.Round((decimal)observed.Uncertainty, 6),
            Effective = Nanometres(effective.Micrometres), Uncertainty = Nanometres(effective.StandardUncertaintyMicrometres), Passed = verdict.Passed, Words = verdict.Words,
        });
        EquipmentKeeping.Tell(scope, sieve.Id, CheckDeed.Words, $"{material.Label}: {verdict.Words}");
        ApertureCard.Stop(scope, sieve, verdict.Passed ? null : "the check with a reference material failed");
        return verdict.Passed;
    }

    private static (double Passing, double Uncertainty) Observed(IReadOnlyList<ReferenceSieving> sievings, Balance balance)
    {
        if (sievings.Count is < 1 or > 10)
        {
            throw new RefusedException("reference-count", "A check has one to ten sievings of the reference material.", "sievings");
        }

        foreach (var sieving in sievings)
        {
            sieving.Check();
        }

        double repeatability = balance.Repeatability.Micrograms, readability = balance.Readability.Micrograms;
        return ReferenceSieving.Mean(sievings, Mass.FromMicrograms((long)Math.Ceiling(Math.Sqrt((repeatability * repeatability) + (readability * readability / 12)))));
    }

    private static Aperture Nanometres(double micrometres) => Aperture.FromNanometres(Math.Max(1, (long)Math.Round(micrometres * 1_000)));

    private static async Task<TestSieve> FindAsync(DeedScope scope, Guid id, long version, CancellationToken cancellation)
    {
        var sieve = await scope.FindKeptAsync<TestSieve>(id, "sieve", cancellation);
        DeedScope.RequireVersion(sieve, version, sieve.Label);
        scope.About(nameof(TestSieve), sieve.Id, sieve.Label);
        return sieve;
    }
}
