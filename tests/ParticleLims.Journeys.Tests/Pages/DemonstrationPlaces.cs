using Microsoft.EntityFrameworkCore;
using Microsoft.Extensions.DependencyInjection;
using ParticleLims.CertificatePdf;
using ParticleLims.Laboratory;
using ParticleLims.Laboratory.Balances;
using ParticleLims.Laboratory.Certificates;
using ParticleLims.Laboratory.Customers;
using ParticleLims.Laboratory.Documents;
using ParticleLims.Laboratory.Equipment;
using ParticleLims.Laboratory.EquipmentFailures;
using ParticleLims.Laboratory.Investigations;
using ParticleLims.Laboratory.Lots;
using ParticleLims.Laboratory.Methods;
using ParticleLims.Laboratory.Runs;
using ParticleLims.Laboratory.SievingUnits;
using ParticleLims.Laboratory.Sieves;
using ParticleLims.Laboratory.Specifications;
using ParticleLims.Laboratory.Storage;
using ParticleLims.Storage.Sqlite;

namespace ParticleLims.Journeys.Tests.Pages;

/// <summary>Where in the demonstration something telling stands, read from its database.</summary>
public sealed record DemonstrationPlaces
{
    public required string GenuineToken { get; init; }
    public required string WithdrawnToken { get; init; }
    public required Guid Certificate { get; init; }
    public required Guid Customer { get; init; }
    public required Guid PlannedRun { get; init; }
    public required Guid RunInProgress { get; init; }
    public required Guid RunToReview { get; init; }
    public required Guid LotAwaitingResults { get; init; }
    public required Guid LotAwaitingDisposition { get; init; }
    public required Guid ReleasedLot { get; init; }
    public required Guid ConcessionLot { get; init; }
    public required Guid RejectedLot { get; init; }
    public required Guid Sample { get; init; }
    public required Guid OpenInvestigation { get; init; }
    public required Guid ClosedInvestigation { get; init; }
    public required Guid BlindedSieve { get; init; }
    public required Guid ScrappedSieve { get; init; }
    public required Guid WornSieve { get; init; }
    public required Guid CheckWeight { get; init; }
    public required Guid EquipmentFailure { get; init; }
    public required Guid BenchBalance { get; init; }
    public required Guid FailedBalance { get; init; }
    /// <summary>A sieving unit with a gauge.</summary>
    public required Guid SievingUnit { get; init; }

    public required Guid RevisedMethod { get; init; }
    public required Guid MethodInApproval { get; init; }
    public required Guid RevisedSpecification { get; init; }
    public required Guid Person { get; init; }

    /// <summary>Looks for them; the demonstration promises each in its handbook page.</summary>
    public static async Task<DemonstrationPlaces> ReadAsync(string databaseFile)
    {
        await using var services = new ServiceCollection().AddSingleton<ICertificateDrawing, CertificatePdfWriter>().AddLaboratory().AddSqliteStorage(databaseFile).BuildServiceProvider();
        await using var data = await services.GetRequiredService<IDbContextFactory<LaboratoryContext>>().CreateDbContextAsync();
        var genuine = await data.Certificates.Where(one => one.State == CertificateState.Issued && one.ProductCode == "GC-45").OrderBy(one => one.Number).LastAsync();
        return new DemonstrationPlaces
        {
            GenuineToken = genuine.VerifyToken,
            Certificate = genuine.Id,
            Customer = (await data.Customers.FirstAsync(one => one.Name == "Orrin Baking Supplies")).Id,
            ReleasedLot = genuine.LotId,
            Sample = genuine.SampleId,
            WithdrawnToken = (await data.Certificates.FirstAsync(one => one.State == CertificateState.Withdrawn)).VerifyToken,
            PlannedRun = (await data.Runs.OrderBy(run => run.Number).FirstAsync(run => run.State == RunState.Planned && run.ProductCode == "GC-45")).Id,
            RunInProgress = await RunAsync(data, RunState.InProgress),
            RunToReview = await RunAsync(data, RunState.Submitted),
            LotAwaitingResults = await LotAsync(data, LotState.AwaitingResults),
            LotAwaitingDisposition = await LotAsync(data, LotState.AwaitingDisposition),
            ConcessionLot = await LotAsync(data, LotState.ReleasedByConcession),
            RejectedLot = await LotAsync(data, LotState.Rejected),
            OpenInvestigation = (await data.Investigations.FirstAsync(one => one.State != InvestigationState.Closed)).Id,
            ClosedInvestigation = (await data.Investigations.FirstAsync(one => one.State == InvestigationState.Closed)).Id,
            BlindedSieve = (await data.TestSieves.FirstAsync(one => one.State == EquipmentState.OutOfService && one.Serial == "TS-045-1")).Id,
            ScrappedSieve = (await data.TestSieves.FirstAsync(one => one.State == EquipmentState.Scrapped)).Id,
            WornSieve = (await data.TestSieves.FirstAsync(one => one.Serial == "TS-090-1")).Id,
            CheckWeight = (await data.CheckWeights.FirstAsync()).Id,
            EquipmentFailure = (await data.EquipmentFailures.FirstAsync()).Id,
            BenchBalance = (await data.Balances.FirstAsync(one => one.Serial == "0417")).Id,
            FailedBalance = (await data.Balances.FirstAsync(one => one.Serial != "0417")).Id,
            SievingUnit = (await data.SievingUnits.FirstAsync(one => one.GaugeHost != null)).Id,
            RevisedMethod = (await data.Methods.FirstAsync(one => one.Code == "M-MS-90")).Id,
            MethodInApproval = (await data.Methods.FirstAsync(one => one.Versions.Any(version => version.State == DocumentState.InApproval))).Id,
            RevisedSpecification = (await data.Specifications.FirstAsync(one => one.Code == "SP-GC-45")).Id,
            Person = (await data.Users.OrderBy(one => one.UserName).FirstAsync()).Id,
        };
    }

    private static async Task<Guid> RunAsync(LaboratoryContext data, RunState state) => (await data.Runs.OrderBy(run => run.Number).FirstAsync(run => run.State == state)).Id;

    private static async Task<Guid> LotAsync(LaboratoryContext data, LotState state) => (await data.Lots.OrderBy(lot => lot.Number).FirstAsync(lot => lot.State == state)).Id;
}
