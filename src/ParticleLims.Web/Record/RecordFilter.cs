using System.Globalization;
using Microsoft.AspNetCore.Http.Extensions;
using ParticleLims.Laboratory.Record;
using ParticleLims.Web.Shell;

namespace ParticleLims.Web.Record;

/// <summary>What somebody looks for in the audit trail, as it stands in the page's address.</summary>
/// <param name="Words">A part of the subject, the person or the deed's code.</param>
/// <param name="From">The first day, in the laboratory's time zone.</param>
/// <param name="To">The last day.</param>
/// <param name="Subject">Everything about one thing.</param>
public sealed record RecordFilter(string? Words, DateOnly? From, DateOnly? To, Guid? Subject)
{
    /// <summary>Reads it from an address; a day that is none asks nothing.</summary>
    public static RecordFilter Read(string? words, string? from, string? to, Guid? subject) => new(string.IsNullOrWhiteSpace(words) ? null : words.Trim(), Day(from), Day(to), subject);

    /// <summary>The question to the record.</summary>
    public RecordQuestion Question(LaboratoryClock clock)
    {
        ArgumentNullException.ThrowIfNull(clock);
        return new RecordQuestion(Subject, Words, From is { } from ? clock.StartOf(from) : null, To is { } to ? clock.StartOf(to.AddDays(1)).AddTicks(-1) : null);
    }

    /// <summary>The address of a page that shows it.</summary>
    public string Address(string path, params (string Name, string Value)[] more)
    {
        var query = new QueryBuilder();
        Add(query, "words", Words);
        Add(query, "from", From?.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture));
        Add(query, "to", To?.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture));
        Add(query, "subject", Subject?.ToString("D"));
        foreach (var (name, value) in more)
        {
            query.Add(name, value);
        }

        return path + query.ToQueryString();
    }

    private static void Add(QueryBuilder query, string name, string? value)
    {
        if (value is not null)
        {
            query.Add(name, value);
        }
    }

    private static DateOnly? Day(string? text) => DateOnly.TryParseExact(text, "yyyy-MM-dd", CultureInfo.InvariantCulture, DateTimeStyles.None, out var day) ? day : null;
}
