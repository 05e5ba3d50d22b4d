using Microsoft.EntityFrameworkCore;
using ParticleLims.Laboratory.Documents;
using ParticleLims.Laboratory.Lots;
using ParticleLims.Laboratory.Methods;
using ParticleLims.Laboratory.Products;
using ParticleLims.Laboratory.Record;
using ParticleLims.Laboratory.Runs;
using ParticleLims.Laboratory.Settings;
using ParticleLims.Laboratory.Specifications;

namespace ParticleLims.Laboratory.Samples;

/// <summary>A sample as it is booked in.</summary>
/// <param name="LotId">The lot.</param>
/// <param name="MethodVersionId">By which method it is measured.</param>
/// <param name="SpecificationVersionId">Against which specification it is held.</param>
/// <param name="Particulars">What is written down when it arrives.</param>
public sealed record NewSample(Guid LotId, Guid MethodVersionId, Guid SpecificationVersionId, SampleParticulars Particulars);

/// <summary>What a booked-in sample's label says.</summary>
public sealed record SampleBookedIn(Guid Id, string Code, IReadOnlyList<Guid> RunIds);

/// <summary>Books samples in: each gets its label code, the runs that its method and its specification ask for are planned, and what arrived is compared with the sampling plan.</summary>
public sealed class SampleReception(WritePath writing, ReadPath reading)
{
    private static readonly DeedKind BookInDeed = new("samples.book-in", "Sample booked in", Permission.BookIn);

    /// <summary>Books a sample in by an approved method and an approved specification.</summary>
    public Task<SampleBookedIn> BookInAsync(Actor actor, NewSample wanted, string? key, CancellationToken cancellation) =>
        writing.CarryOutAsync(new Deed(BookInDeed, actor, key) { Asked = wanted }, async (scope, token) =>
        {
            var given = wanted.Particulars.Tidied;
            given.Require(scope.Now);
            var lot = await scope.FindAsync<Lot>(wanted.LotId, "lot", token);
            var permitted = lot.TakeSample();
            var product = await scope.FindAsync<Product>(lot.ProductId, "product", token);
            if (product.Hazards is null)
            {
                throw new RefusedException("hazards-missing", $"No hazard data is recorded for {product.Code}. Do not open, split or sieve the sample until its hazards are known and recorded.");
            }

            var method = await MethodAsync(scope, wanted.MethodVersionId, lot, token);
            var specification = await SpecificationAsync(scope, wanted.SpecificationVersionId, lot, token);
            var sample = await AddAsync(scope, wanted, given, specification.Sampling, permitted, token);
            var runs = new List<Run>();
            for (var replicate = 1; replicate <= specification.DeterminationsBeside(method.Replicates); replicate++)
            {
                runs.Add(await PlanAsync(scope, sample, lot, product, replicate, token));
            }

            scope.Data.AddRange(runs);
            lot.AwaitResults();
            scope.About("Sample", sample.Id, $"{sample.Code} of lot {lot.Number}");
            return new SampleBookedIn(sample.Id, sample.Code, [.. runs.Select(run => run.Id)]);
        }, cancellation);

    /// <summary>The samples of a lot, oldest first.</summary>
    public Task<List<Sample>> OfLotAsync(Actor actor, Guid lotId, CancellationToken cancellation) =>
        reading.ReadAsync(actor, Permission.SeeLaboratory, (data, _, token) => data.Samples.Where(sample => sample.LotId == lotId).OrderBy(sample => sample.Code).ToListAsync(token), cancellation);

    /// <summary>One sample; null when there is none.</summary>
    public Task<Sample?> FindAsync(Actor actor, Guid id, CancellationToken cancellation) =>
        reading.ReadAsync(actor, Permission.SeeLaboratory, (data, _, token) => data.Samples.FirstOrDefaultAsync(sample => sample.Id == id, token), cancellation);

    private static async Task<MethodVersion> MethodAsync(DeedScope scope, Guid versionId, Lot lot, CancellationToken cancellation)
    {
        var version = await scope.FindAsync<MethodVersion>(versionId, "method", cancellation);
        var method = await scope.FindAsync<Method>(version.DocumentId, "method", cancellation);
        var standing = await VersionStandings.StandingOfAsync(scope.Data, version, scope.Now, cancellation);
        return standing == VersionStanding.InForce && method.ProductId == lot.ProductId
            ? version
            : throw new RefusedException("method-not-approved", $"{version.LabelIn(method)} is {standing.Words()}, or it is for another product. Choose a method that is in force for this product.", "method");
    }

    private static async Task<SpecificationVersion> SpecificationAsync(DeedScope scope, Guid versionId, Lot lot, CancellationToken cancellation)
    {
        var version = await scope.FindAsync<SpecificationVersion>(versionId, "specification", cancellation);
        var specification = await scope.FindAsync<Specification>(version.DocumentId, "specification", cancellation);
        var standing = await VersionStandings.StandingOfAsync(scope.Data, version, scope.Now, cancellation);
        if (standing != VersionStanding.InForce || specification.ProductId != lot.ProductId || (specification.CustomerId is { } customer && customer != lot.CustomerId))
        {
            throw new RefusedException("specification-not-approved", $"{version.LabelIn(specification)} is {standing.Words()}, or it is for another product or customer. Choose one that is in force for this lot.", "specification");
        }

        await RequireCustomersOwnAsync(scope, specification, lot, cancellation);
        return version;
    }

    // What was agreed with the customer goes before what is sold to everybody, however the result would look against the latter.
    private static async Task RequireCustomersOwnAsync(DeedScope scope, Specification chosen, Lot lot, CancellationToken cancellation)
    {
        if (chosen.CustomerId is not null || lot.CustomerId is not { } customer)
        {
            return;
        }

        var (specifications, inForce) = (scope.Data.Specifications, scope.Data.SpecificationVersions.ThoseInForceAt(scope.Now));
        var own = await (from specification in specifications
                         join version in inForce on specification.Id equals version.DocumentId
                         where specification.ProductId == lot.ProductId && specification.CustomerId == customer
                         orderby specification.Code
                         select specification.Code).FirstOrDefaultAsync(cancellation);
        if (own is not null)
        {
            throw new RefusedException("specification-of-customer", $"The customer of lot {lot.Number} has a specification of its own in force, {own}: the sample is held against that, not against {chosen.Code}.", "specification");
        }
    }

    private static async Task<Sample> AddAsync(DeedScope scope, NewSample wanted, SampleParticulars given, SamplingPlan? plan, (Guid SampleId, string Because)? permitted, CancellationToken cancellation)
    {
        var sample = new Sample
        {
            Id = scope.NewId(), Code = await scope.NextNumberAsync("S", cancellation), LotId = wanted.LotId, MethodVersionId = wanted.MethodVersionId, SpecificationVersionId = wanted.SpecificationVersionId,
            Particulars = given, SamplingLacks = plan?.Lacks(given.Increments, given.Mass, given.Recorded), ReceivedAt = scope.Now, ReceivedById = scope.PersonId, ReceivedByName = scope.By.Name,
            ReplacesSampleId = permitted?.SampleId, TakenAgainBecause = permitted?.Because,
        };
        scope.Data.Add(sample);
        return sample;
    }

    private static async Task<Run> PlanAsync(DeedScope scope, Sample sample, Lot lot, Product product, int replicate, CancellationToken cancellation) => new()
    {
        Id = scope.NewId(), Number = await scope.NextNumberAsync("R", cancellation), SampleId = sample.Id, SampleCode = sample.Code, LotId = lot.Id, LotNumber = lot.Number,
        ProductId = product.Id, ProductCode = product.Code, MethodVersionId = sample.MethodVersionId, SpecificationVersionId = sample.SpecificationVersionId, Replicate = replicate, PlannedAt = scope.Now,
    };
}
