using System.Globalization;
using Microsoft.AspNetCore.Components;
using ParticleLims.Laboratory.Customers;
using ParticleLims.Laboratory.Lots;
using ParticleLims.Laboratory.Products;
using ParticleLims.Web.Controls;

namespace ParticleLims.Web.Lots;

/// <summary>Finds lots; what is looked for stands in the address, so that it can be kept and sent.</summary>
public sealed partial class LotsPage
{
    private const int PageLength = 50;
    private static readonly LotState[] States = Enum.GetValues<LotState>();
    private readonly Stack<LotPlace?> before = [];
    private List<Product> products = [];
    private List<Customer> customers = [];
    private IReadOnlyList<LotRow> rows = [];
    private LotQuestion question = new();
    private LotPlace? here;
    private LotPlace? next;
    private int? counted;
    private bool loaded;
    private bool asked;
    private string number = string.Empty;
    private int product = -1;
    private int customer = -1;
    private int state = -1;
    private DateOnly? madeFrom;
    private DateOnly? madeTo;

    [SupplyParameterFromQuery(Name = "number")] private string? NumberAsked { get; set; }
    [SupplyParameterFromQuery(Name = "product")] private string? ProductAsked { get; set; }
    [SupplyParameterFromQuery(Name = "customer")] private string? CustomerAsked { get; set; }
    [SupplyParameterFromQuery(Name = "state")] private string? StateAsked { get; set; }
    [SupplyParameterFromQuery(Name = "from")] private string? FromAsked { get; set; }
    [SupplyParameterFromQuery(Name = "to")] private string? ToAsked { get; set; }

    private string CountWords => counted switch
    {
        null => string.Empty,
        > LotSearch.MostCounted => string.Create(CultureInfo.InvariantCulture, $"More than {LotSearch.MostCounted} lots."),
        { } known => Say.Count(known, "lot.", "lots."),
    };

    /// <inheritdoc />
    protected override async Task LoadAsync()
    {
        products = await ProductShelf.AllAsync(Actor, Leaving);
        customers = await CustomerShelf.AllAsync(Actor, Leaving);
        ReadAddress();
        await ShowAsync(null);
        loaded = true;
    }

    private void ReadAddress()
    {
        number = NumberAsked ?? string.Empty;
        product = products.FindIndex(one => string.Equals(one.Code, ProductAsked, StringComparison.OrdinalIgnoreCase));
        customer = customers.FindIndex(one => string.Equals(one.Name, CustomerAsked, StringComparison.OrdinalIgnoreCase));
        state = Array.FindIndex(States, one => string.Equals(one.ToString(), StateAsked, StringComparison.OrdinalIgnoreCase));
        (madeFrom, madeTo) = (Day(FromAsked), Day(ToAsked));
        question = new LotQuestion(
            number.Trim().Length == 0 ? null : number, product < 0 ? null : products[product].Id, customer < 0 ? null : customers[customer].Id, state < 0 ? null : States[state], madeFrom, madeTo);
        asked = question != new LotQuestion();
    }

    private async Task ShowAsync(LotPlace? after)
    {
        var slice = await Search.GoOnAsync(Actor, question, after, PageLength, Leaving);
        (rows, next, here, counted) = (slice.Rows, slice.Next, after, slice.Counted ?? counted);
    }

    private Task<bool> OlderAsync() => DoAsync(async () =>
    {
        before.Push(here);
        await ShowAsync(next);
    });

    private Task<bool> NewerAsync() => DoAsync(() => ShowAsync(before.Pop()));

    private void Find() => Navigation.NavigateTo(Navigation.GetUriWithQueryParameters("/lots", new Dictionary<string, object?>(StringComparer.Ordinal)
    {
        ["number"] = number.Trim().Length == 0 ? null : number.Trim(),
        ["product"] = product < 0 ? null : products[product].Code,
        ["customer"] = customer < 0 ? null : customers[customer].Name,
        ["state"] = state < 0 ? null : States[state].ToString(),
        ["from"] = madeFrom?.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture),
        ["to"] = madeTo?.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture),
    }));

    private static DateOnly? Day(string? written) =>
        DateOnly.TryParseExact(written, "yyyy-MM-dd", CultureInfo.InvariantCulture, DateTimeStyles.None, out var day) ? day : null;
}
