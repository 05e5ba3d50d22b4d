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
    private readonly SampleDraft draft = new();
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
    private SampleFields fields = null!;
    private string? lacks;

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
            specifications = (await SpecificationShelf.InForceAsync(Actor, lot.ProductId, Leaving)).For(lot.CustomerId);
            (method, specification) = (methods.Count == 1 ? 0 : -1, specifications.Count == 1 ? 0 : -1);
        }
    }

    private async Task BookInAsync()
    {
        await ValidateAsync(form);
        var given = fields.Read();
        if (!methodField.Complete() | !specificationField.Complete() | !form.IsValid || given is null)
        {
            return;
        }

        var sample = new NewSample(LotId, methods[method].VersionId, specifications[specification].VersionId, given);
        await DoAsync(async () =>
        {
            var done = await Reception.BookInAsync(Actor, sample, key, Leaving);
            planned = [.. (await Runs.OfLotAsync(Actor, LotId, Leaving)).Where(run => done.RunIds.Contains(run.Id))];
            lacks = (await Reception.FindAsync(Actor, done.Id, Leaving))?.SamplingLacks;
            (booked, bookedAt) = (done, Clock.Now);
        }, "Sample booked in.");
    }
}
