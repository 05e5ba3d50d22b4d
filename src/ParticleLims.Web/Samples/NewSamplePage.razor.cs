using System.Globalization;
using Microsoft.AspNetCore.Components;
using MudBlazor;
using ParticleLims.Laboratory.Lots;
using ParticleLims.Laboratory.Methods;
using ParticleLims.Laboratory.Products;
using ParticleLims.Laboratory.Runs;
using ParticleLims.Laboratory.Samples;
using ParticleLims.Laboratory.Specifications;
using ParticleLims.Web.Controls;
using ParticleLims.Web.Products;

namespace ParticleLims.Web.Samples;

/// <summary>Books a sample in, then shows its label and the runs that wait for it.</summary>
public sealed partial class NewSamplePage
{
    private static readonly SampleDivision[] Divisions = Enum.GetValues<SampleDivision>();
    private LotRow? lot;
    private Product? product;
    private List<MethodChoice> methods = [];
    private List<SpecificationChoice> specifications = [];
    private List<RunRow> planned = [];
    private SampleBookedIn? booked;
    private DateTimeOffset bookedAt;
    private MudForm form = null!;
    private ChoiceField<MethodChoice> methodField = null!;
    private ChoiceField<SpecificationChoice> specificationField = null!;
    private bool loaded;
    private string key = string.Empty;
    private int method = -1;
    private int specification = -1;
    private int division;
    private string? takenAt;
    private string? takenRefused;
    private string takenBy = string.Empty;
    private string samplingWay = string.Empty;
    private string description = string.Empty;
    private string condition = string.Empty;
    private string recorded = string.Empty;
    private string? lacks;
    private decimal? increments;
    private decimal? mass;

    /// <summary>The lot that it was taken from.</summary>
    [Parameter] public Guid LotId { get; set; }

    [Inject] private SampleReception Reception { get; set; } = null!;
    [Inject] private LotSearch Search { get; set; } = null!;
    [Inject] private ProductKeeping ProductShelf { get; set; } = null!;
    [Inject] private MethodKeeping MethodShelf { get; set; } = null!;
    [Inject] private SpecificationKeeping SpecificationShelf { get; set; } = null!;
    [Inject] private RunReading Runs { get; set; } = null!;

    private string? LabelHazards => product?.Hazards is null or Hazards.None ? null : HazardWords.Of(product.Hazards);

    private SamplingPlan? Plan => specification < 0 ? null : specifications[specification].Sampling;

    /// <inheritdoc />
    protected override async Task LoadAsync()
    {
        key = Guid.CreateVersion7(Clock.Now).ToString("N");
        lot = await Search.FindAsync(Actor, LotId, Leaving);
        loaded = true;
        if (lot is not null)
        {
            product = (await ProductShelf.AllAsync(Actor, Leaving)).Find(one => one.Id == lot.ProductId);
            methods = await MethodShelf.InForceAsync(Actor, lot.ProductId, Leaving);
            specifications = [.. (await SpecificationShelf.InForceAsync(Actor, lot.ProductId, Leaving)).Where(one => one.CustomerId is null || one.CustomerId == lot.CustomerId)];
            (method, specification) = (methods.Count == 1 ? 0 : -1, specifications.Count == 1 ? 0 : -1);
        }
    }

    private async Task BookInAsync()
    {
        await ValidateAsync(form);
        var moment = ReadTaken();
        if (!methodField.Complete() | !specificationField.Complete() | !form.IsValid || takenRefused is not null)
        {
            return;
        }

        var sample = new NewSample(LotId, methods[method].VersionId, specifications[specification].VersionId, moment, takenBy, samplingWay, description, condition, Divisions[division])
        {
            Increments = (int?)increments, Mass = mass is { } grams ? Analysis.Quantities.Mass.FromGrams(grams) : null, Recorded = Plan?.ToRecord is null ? null : recorded,
        };
        await DoAsync(async () =>
        {
            var done = await Reception.BookInAsync(Actor, sample, key, Leaving);
            planned = [.. (await Runs.OfLotAsync(Actor, LotId, Leaving)).Where(run => done.RunIds.Contains(run.Id))];
            lacks = (await Reception.FindAsync(Actor, done.Id, Leaving))?.SamplingLacks;
            (booked, bookedAt) = (done, Clock.Now);
        }, "Sample booked in.");
        takenRefused = FieldNames.About(Refusal, "takenAt");
    }

    private void TakenTyped(string? typed) => (takenAt, takenRefused) = (typed, null);

    private DateTimeOffset? ReadTaken()
    {
        takenRefused = null;
        if (string.IsNullOrWhiteSpace(takenAt))
        {
            return null;
        }

        if (DateTime.TryParse(takenAt, CultureInfo.InvariantCulture, DateTimeStyles.None, out var local))
        {
            return Clock.Instant(local);
        }

        takenRefused = "Write day and time as 2026-03-02 08:15.";
        return null;
    }
}
