using Microsoft.AspNetCore.Components;
using MudBlazor;
using ParticleLims.Laboratory.Customers;
using ParticleLims.Laboratory.Products;
using ParticleLims.Laboratory.Record;
using ParticleLims.Laboratory.Specifications;
using ParticleLims.Web.Controls;

namespace ParticleLims.Web.Specifications;

/// <summary>Writes a specification, or the next version of one that begins as a copy of the newest.</summary>
public sealed partial class SpecificationEditorPage
{
    private List<Product> products = [];
    private List<Customer> customers = [];
    private List<LimitRow> rows = [new()];
    private SamplingSheet sheet = new();
    private ChoiceField<Product>? productField;
    private MudForm form = null!;
    private string key = string.Empty;
    private string codeShown = string.Empty;
    private string code = string.Empty;
    private string title = string.Empty;
    private string whatChanged = string.Empty;
    private int product = -1;
    private int customer = -1;
    private bool loaded;
    private Guid? revised;

    /// <summary>The specification to revise; null for a new one.</summary>
    [Parameter] public Guid? Id { get; set; }

    [Inject] private SpecificationKeeping Keeping { get; set; } = null!;
    [Inject] private ProductKeeping ProductShelf { get; set; } = null!;
    [Inject] private CustomerKeeping CustomerShelf { get; set; } = null!;

    private string Heading => Id is null ? "Write a specification" : $"Write the next version of {codeShown}";

    private Guid? ProductId => revised ?? (product < 0 ? null : products[product].Id);

    private IReadOnlyList<LimitDraft> Limits => rows.TrueForAll(row => row.IsComplete) ? [.. rows.Select(row => row.Draft())] : throw new RefusedException("limit", "A limit is not complete yet: it has its aperture or percentage, and its decimals.");

    private SpecificationDraft Draft => sheet.In(new SpecificationDraft([.. rows.Select(row => row.Draft())], whatChanged.Trim().Length == 0 ? "First version" : whatChanged));

    /// <inheritdoc />
    protected override async Task LoadAsync()
    {
        key = Guid.CreateVersion7(Clock.Now).ToString("N");
        products = await ProductShelf.AllAsync(Actor, Leaving);
        customers = await CustomerShelf.AllAsync(Actor, Leaving);
        if (Id is { } id)
        {
            var page = (await Keeping.AllAsync(Actor, Leaving)).Find(one => one.Specification.Id == id) ?? throw new RefusedException("not-found", "There is no such specification.");
            sheet = SamplingSheet.Of(page.Versions[0]);
            (rows, codeShown, revised) = ([.. page.Versions[0].Limits.OrderBy(limit => limit.Position).Select(LimitRow.Of)], page.Specification.Code, page.Product.Id);
        }

        loaded = true;
    }

    private async Task SaveAsync()
    {
        await ValidateAsync(form);
        if (productField?.Complete() == false | !form.IsValid)
        {
            return;
        }

        var address = string.Empty;
        if (await DoAsync(async () => address = await WriteAsync(), "Written as a draft. Hand it over for approval when it is ready."))
        {
            Navigation.NavigateTo(address);
        }
    }

    private async Task<string> WriteAsync()
    {
        if (Id is { } id)
        {
            await Keeping.ReviseAsync(Actor, id, Draft, key, Leaving);
            return $"/specifications/{id}";
        }

        var version = await Keeping.WriteAsync(Actor, code, title, products[product].Id, customer < 0 ? null : customers[customer].Id, Draft, key, Leaving);
        return $"/specifications/{(await Keeping.AllAsync(Actor, Leaving)).Find(one => one.Versions.Any(written => written.Id == version))!.Specification.Id}";
    }
}
