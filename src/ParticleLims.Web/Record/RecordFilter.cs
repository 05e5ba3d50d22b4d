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
/// <param name="WithBelongings">And about what belongs to it.</param>
public sealed record RecordFilter(string? Words, DateOnly? From, DateOnly? To, Guid? Subject, bool WithBelongings)
{
    /// <summary>Reads it from an address; a day that is none asks nothing.</summary>
    public static RecordFilter Read(string? words, string? from, string? to, Guid? subject, bool? whole) =>
        new(string.IsNullOrWhiteSpace(words) ? null : words.Trim(), Day(from), Day(to), subject, subject is not null && whole == true);

    /// <summary>The address of everything about a thing and what belongs to it.</summary>
    public static string AddressOfAllAbout(Guid subject) => new RecordFilter(null, null, null, subject, true).Address("/record");

    /// <summary>The question to the record.</summary>
    public RecordQuestion Question(LaboratoryClock clock)
    {
        ArgumentNullException.ThrowIfNull(clock);
        return new RecordQuestion(Subject, Words, From is { } from ? clock.StartOf(from) : null, To is { } to ? clock.StartOf(to.AddDays(1)).AddTicks(-1) : null) { WithBelongings = WithBelongings };
    }

    /// <summary>The question in words, for whoever reads the printed trail or the event of its export.</summary>
    /// <param name="subject">What the asked thing is called.</param>
    public string InWords(string? subject)
    {
        var parts = new List<string> { Subject is null ? "everything" : $"everything about {subject ?? "one thing"}{(WithBelongings ? " and what belongs to it" : string.Empty)}" };
        parts.AddRange(Words is null ? [] : [$"with “{Words}”"]);
        parts.AddRange(From is { } from ? [$"from {Text(from)}"] : []);
        parts.AddRange(To is { } to ? [$"to {Text(to)}"] : []);
        return string.Join(' ', parts);
    }

    /// <summary>The address of a page that shows it.</summary>
    public string Address(string path, params (string Name, string Value)[] more)
    {
        var query = new QueryBuilder();
        Add(query, "words", Words);
        Add(query, "from", From is { } from ? Text(from) : null);
        Add(query, "to", To is { } to ? Text(to) : null);
        Add(query, "subject", Subject?.ToString("D"));
        Add(query, "whole", WithBelongings ? "true" : null);
        foreach (var (name, value) in more)
        {
            query.Add(name, value);
        }

        return path + query.ToQueryString();
    }

    private static string Text(DateOnly day) => day.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture);

    private static void Add(QueryBuilder query, string name, string? value)
    {
        if (value is not null)
        {
            query.Add(name, value);
        }
    }

    private static DateOnly? Day(string? text) => DateOnly.TryParseExact(text, "yyyy-MM-dd", CultureInfo.InvariantCulture, DateTimeStyles.None, out var day) ? day : null;
}
