using System.Globalization;
using ParticleLims.Laboratory.Record;

namespace ParticleLims.Laboratory.Settings;

/// <summary>Running numbers such as <c>S-26-00412</c>: given out in the transaction of the deed, so none is lost and none is given twice.</summary>
public static class Numbers
{
    /// <summary>The next number of a kind in the year of the deed.</summary>
    public static async Task<string> NextNumberAsync(this DeedScope scope, string kind, CancellationToken cancellation)
    {
        ArgumentNullException.ThrowIfNull(scope);
        var name = string.Create(CultureInfo.InvariantCulture, $"{kind}-{scope.Now.Year % 100:00}");
        var series = await scope.Data.Set<NumberSeries>().FindAsync([name], cancellation);
        if (series is null)
        {
            series = new NumberSeries { Name = name };
            scope.Data.Add(series);
        }

        series.Last++;
        return string.Create(CultureInfo.InvariantCulture, $"{name}-{series.Last:00000}");
    }
}
