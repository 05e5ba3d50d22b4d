using Microsoft.AspNetCore.Components;
using ParticleLims.Laboratory.Certificates;
using ParticleLims.Laboratory.Dispositions;
using ParticleLims.Laboratory.Lots;
using ParticleLims.Laboratory.Record;
using ParticleLims.Laboratory.Runs;
using ParticleLims.Laboratory.Samples;
using ParticleLims.Laboratory.Specifications;

namespace ParticleLims.Web.Lots;

/// <summary>Everything that is known of one lot.</summary>
public sealed partial class LotPage
{
    private LotRow? lot;
    private LotEvidence? evidence;
    private List<Sample> samples = [];
    private List<RunRow> runs = [];
    private List<CertificateRow> certificates = [];
    private List<SampleToCertify> uncertified = [];
    private Dictionary<Guid, string> specificationNames = [];
    private bool loaded;

    /// <summary>The lot.</summary>
    [Parameter] public Guid Id { get; set; }

    [Inject] private LotSearch Search { get; set; } = null!;
    [Inject] private LotDecision Decision { get; set; } = null!;
    [Inject] private SampleReception Reception { get; set; } = null!;
    [Inject] private SpecificationKeeping SpecificationShelf { get; set; } = null!;
    [Inject] private RunReading Runs { get; set; } = null!;
    [Inject] private SamplesToCertify Uncertified { get; set; } = null!;
    [Inject] private CertificateShelf Shelf { get; set; } = null!;

    private bool correctLot;
    private Sample? correctSample;

    /// <inheritdoc />
    protected override async Task LoadAsync()
    {
        lot = await Search.FindAsync(Actor, Id, Leaving);
        if (lot is not null)
        {
            evidence = await Decision.ReadAsync(Actor, Id, Leaving);
            samples = await Reception.OfLotAsync(Actor, Id, Leaving);
            runs = await Runs.OfLotAsync(Actor, Id, Leaving);
            certificates = By.May(Permission.SeeCertificates) ? await Shelf.AllAsync(Actor, Id, null, 100, Leaving) : [];
            uncertified = By.May(Permission.IssueCertificates) ? await Uncertified.OfLotAsync(Actor, Id, Leaving) : [];
            specificationNames = (await SpecificationShelf.AllAsync(Actor, Leaving)).SelectMany(page => page.Versions.Select(version => (version.Id, Name: version.LabelIn(page.Specification)))).ToDictionary(one => one.Id, one => one.Name);
        }

        loaded = true;
    }

    private Task CorrectedAsync()
    {
        (correctLot, correctSample) = (false, null);
        return LoadAsync();
    }

    private string SpecificationName(SampleResult result) => specificationNames.GetValueOrDefault(result.Specification.Id, "the specification");

    // Who carries out runs opens what goes on; what was submitted is read by everybody on the page where it is reviewed.
    private string? Address(RunRow run) => run.State switch
    {
        RunState.Planned or RunState.InProgress or RunState.Returned => By.May(Permission.CarryOutRuns) ? $"/bench/{run.Id}" : null,
        RunState.Abandoned => null,
        _ => $"/review/{run.Id}",
    };

    private string Who(DateTimeOffset? at, string? name) => at is null ? "–" : $"{Clock.Moment(at)}, {name}";
}
