using System.Globalization;
using Microsoft.AspNetCore.Components;
using ParticleLims.Laboratory.Record;
using LaboratoryRecord = ParticleLims.Laboratory.Record;

namespace ParticleLims.Web.Record;

/// <summary>The audit trail: who did what, when, from which terminal, what it was and what it is.</summary>
public sealed partial class RecordPage
{
    private const int PageSize = 50;
    private static readonly RecordFilter Everything = new(null, null, null, null);
    private RecordFilter filter = Everything;
    private LaboratoryRecord.RecordPage? found;
    private RecordVerification? verification;
    private string? words;
    private DateOnly? from;
    private DateOnly? to;
    private bool loaded;

    [SupplyParameterFromQuery(Name = "words")]
    private string? WordsAsked { get; set; }

    [SupplyParameterFromQuery(Name = "from")]
    private string? FromAsked { get; set; }

    [SupplyParameterFromQuery(Name = "to")]
    private string? ToAsked { get; set; }

    [SupplyParameterFromQuery(Name = "subject")]
    private Guid? SubjectAsked { get; set; }

    [SupplyParameterFromQuery(Name = "page")]
    private int PageAsked { get; set; }

    [Inject]
    private RecordReading Trail { get; set; } = null!;

    private int PageNumber => Math.Max(1, PageAsked);

    private int PageCount => Math.Max(1, ((found?.Total ?? 0) + PageSize - 1) / PageSize);

    private string ChainWords => verification switch
    {
        { Fault: { } fault } => fault + " Tell the administrator and the quality manager at once.",
        { } whole => string.Create(CultureInfo.InvariantCulture, $"All {whole.Events} events hold together. The hash of the last one is {whole.HeadHash}."),
        null => string.Empty,
    };

    /// <inheritdoc />
    protected override async Task LoadAsync()
    {
        filter = RecordFilter.Read(WordsAsked, FromAsked, ToAsked, SubjectAsked);
        (words, from, to) = (filter.Words, filter.From, filter.To);
        found = await Trail.FindAsync(Actor, filter.Question(Clock), (PageNumber - 1) * PageSize, PageSize, Leaving);
        loaded = true;
    }

    /// <inheritdoc />
    protected override async Task OnParametersSetAsync()
    {
        if (loaded)
        {
            await DoAsync(LoadAsync);
        }
    }

    private void Look() => Navigation.NavigateTo(new RecordFilter(string.IsNullOrWhiteSpace(words) ? null : words.Trim(), from, to, SubjectAsked).Address("/record"));

    private Task<bool> CheckAsync() => DoAsync(async () => verification = await Trail.VerifyAsync(Actor, Leaving));

    private string PageAddress(int page) => filter.Address("/record", ("page", page.ToString(CultureInfo.InvariantCulture)));
}
