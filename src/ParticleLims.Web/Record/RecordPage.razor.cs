using System.Globalization;
using Microsoft.AspNetCore.Components;
using ParticleLims.Laboratory.Record;
using LaboratoryRecord = ParticleLims.Laboratory.Record;

namespace ParticleLims.Web.Record;

/// <summary>The audit trail: who did what, when, from which terminal, what it was and what it is.</summary>
public sealed partial class RecordPage
{
    private const int PageSize = 50;
    private static readonly RecordFilter Everything = new(null, null, null, null, false);
    private RecordFilter filter = Everything;
    private LaboratoryRecord.RecordPage? found;
    private RecordInspected? inspected;
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

    [SupplyParameterFromQuery(Name = "whole")]
    private bool? WholeAsked { get; set; }

    [SupplyParameterFromQuery(Name = "page")]
    private int PageAsked { get; set; }

    [Inject]
    private RecordReading Trail { get; set; } = null!;

    private int PageNumber => Math.Max(1, PageAsked);

    private int PageCount => Math.Max(1, ((found?.Total ?? 0) + PageSize - 1) / PageSize);

    private string Title => filter.Subject is null || found?.Subject is not { } subject ? "Audit trail"
        : filter.WithBelongings ? $"Everything that happened to {subject}" : $"Audit trail of {subject}";

    /// <inheritdoc />
    protected override async Task LoadAsync()
    {
        filter = RecordFilter.Read(WordsAsked, FromAsked, ToAsked, SubjectAsked, WholeAsked);
        (words, from, to) = (filter.Words, filter.From, filter.To);
        found = await Trail.FindAsync(Actor, filter.Question(Clock) with { WithNames = true }, (PageNumber - 1) * PageSize, PageSize, Leaving);
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

    private void Look() => Navigation.NavigateTo((filter with { Words = string.IsNullOrWhiteSpace(words) ? null : words.Trim(), From = from, To = to }).Address("/record"));

    private Task<bool> CheckAsync() => DoAsync(async () => inspected = await Trail.InspectAsync(Actor, Leaving));

    private string PageAddress(int page) => filter.Address("/record", ("page", page.ToString(CultureInfo.InvariantCulture)));
}
