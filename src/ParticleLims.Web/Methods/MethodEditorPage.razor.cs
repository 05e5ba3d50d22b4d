using Microsoft.AspNetCore.Components;
using MudBlazor;
using ParticleLims.Laboratory.Methods;
using ParticleLims.Laboratory.Products;
using ParticleLims.Laboratory.Record;
using ParticleLims.Web.Controls;

namespace ParticleLims.Web.Methods;

/// <summary>Writes a method, or the next version of one that begins as a copy of the newest.</summary>
public sealed partial class MethodEditorPage
{
    private List<Product> products = [];
    private ChoiceField<Product>? productField;
    private MudForm form = null!;
    private MethodSheet sheet = new();
    private string key = string.Empty;
    private string codeShown = string.Empty;
    private int product = -1;
    private bool loaded;

    /// <summary>The method to revise; null for a new one.</summary>
    [Parameter] public Guid? Id { get; set; }

    [Inject] private MethodKeeping Keeping { get; set; } = null!;
    [Inject] private ProductKeeping ProductShelf { get; set; } = null!;

    private string Heading => Id is null ? "Write a method" : $"Write the next version of {codeShown}";

    /// <inheritdoc />
    protected override async Task LoadAsync()
    {
        key = Guid.CreateVersion7(Clock.Now).ToString("N");
        products = await ProductShelf.AllAsync(Actor, Leaving);
        if (Id is { } id)
        {
            var page = (await Keeping.AllAsync(Actor, Leaving)).Find(one => one.Method.Id == id) ?? throw new RefusedException("not-found", "There is no such method.");
            (sheet, codeShown) = (MethodSheet.Of(page.Versions[0]), page.Method.Code);
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
            await Keeping.ReviseAsync(Actor, id, sheet.Draft(), key, Leaving);
            return $"/methods/{id}";
        }

        var version = await Keeping.WriteAsync(Actor, sheet.Code, sheet.Title, products[product].Id, sheet.Draft(), key, Leaving);
        return $"/methods/{(await Keeping.AllAsync(Actor, Leaving)).Find(one => one.Versions.Any(written => written.Id == version))!.Method.Id}";
    }
}
