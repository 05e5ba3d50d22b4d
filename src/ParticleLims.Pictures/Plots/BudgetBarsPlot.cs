using ParticleLims.Pictures.Drawing;
using ParticleLims.Pictures.Scales;

namespace ParticleLims.Pictures.Plots;

/// <summary>What a picture of an uncertainty budget shows.</summary>
public sealed record Budget
{
    /// <summary>The name of the picture.</summary>
    public required string Title { get; init; }

    /// <summary>The inputs in any order.</summary>
    public required IReadOnlyList<BudgetEntry> Entries { get; init; }

    /// <summary>What they make together, in words, for example <c>u(D50) = 0.31 µm</c>; empty for nothing.</summary>
    public string Total { get; init; } = string.Empty;
}

/// <summary>One input's part in a combined uncertainty.</summary>
/// <param name="Label">The input in words.</param>
/// <param name="SharePercent">Its share of u² in percent; below zero where a correlation takes away.</param>
/// <param name="Uncertainty">Its standard uncertainty with its unit; empty where that is not told.</param>
/// <param name="Sensitivity">Its sensitivity coefficient with its unit; empty where it has none.</param>
public sealed record BudgetEntry(string Label, double SharePercent, string Uncertainty = "", string Sensitivity = "");

/// <summary>Level bars: each input's share of the squared combined uncertainty, the largest first.</summary>
public sealed class BudgetBarsPlot : IPlot
{
    private readonly Budget _budget;
    private readonly IReadOnlyList<BudgetEntry> _entries;

    /// <summary>A plot of the budget.</summary>
    /// <exception cref="ArgumentOutOfRangeException">A share is not finite.</exception>
    public BudgetBarsPlot(Budget budget)
    {
        ArgumentNullException.ThrowIfNull(budget);
        foreach (var entry in budget.Entries)
        {
            CurveChecks.Finite(entry.SharePercent, "a share");
        }

        _budget = budget;
        _entries = [.. budget.Entries.OrderByDescending(entry => Math.Abs(entry.SharePercent)).ThenBy(entry => entry.Label, StringComparer.Ordinal)];
    }

    /// <inheritdoc />
    public string Title => _budget.Title;

    /// <inheritdoc />
    public string Description =>
        $"Share of each input in the squared uncertainty, largest first. {(_entries.Count == 0 ? "No input" : string.Join("; ", _entries.Select(InWords)))}. {TotalInWords()}.";

    /// <inheritdoc />
    public PlotTable Numbers => _entries.Any(entry => entry.Uncertainty.Length > 0)
        ? new(["input", "standard uncertainty", "sensitivity", "share of u² in %"], [.. _entries.Select(entry => (IReadOnlyList<string>)[entry.Label, entry.Uncertainty, entry.Sensitivity, PlotTable.Cell(entry.SharePercent)])])
        : new(["input", "share of u² in %"], [.. _entries.Select(entry => (IReadOnlyList<string>)[entry.Label, PlotTable.Cell(entry.SharePercent)])]);

    /// <inheritdoc />
    public void Draw(IPlotSurface surface, PlotLayout layout)
    {
        ArgumentNullException.ThrowIfNull(surface);
        ArgumentNullException.ThrowIfNull(layout);
        var size = layout.TextSize;
        var (top, bottom) = (size * 0.4, layout.Height - (layout.LineHeight * 1.5));
        var rows = Rows(Math.Max(1, (int)((bottom - top) / (layout.LineHeight * 2))));
        var across = Scale(rows, layout);
        var height = rows.Count == 0 ? 0 : Math.Min((bottom - top) / rows.Count, layout.LineHeight * 2.6);
        var zero = across.Position(0);
        for (var i = 0; i < rows.Count; i++)
        {
            DrawRow(surface, layout, rows[i], top + (i * height), height, zero, across.Position(rows[i].SharePercent));
        }

        var end = top + (rows.Count * height);
        surface.Text(new(size * 0.2, end + (size * 1.4)), Shortened(TotalInWords(), layout), new PlotText(size, Bold: true));
    }

    private static string InWords(BudgetEntry entry) => $"{entry.Label}: {Words.Percent(Math.Round(entry.SharePercent, 1))}";

    private static void DrawRow(IPlotSurface surface, PlotLayout layout, BudgetEntry entry, double top, double height, double zero, double end)
    {
        var size = layout.TextSize;
        using var reading = surface.Reading(InWords(entry));
        var share = Words.Percent(Math.Round(entry.SharePercent, 1));
        var label = Shortened(entry.Label, layout with { Width = layout.Width - TextExtent.Width(share, size) - size });
        surface.Text(new(size * 0.2, top + size), label, new PlotText(size));
        surface.Text(new(layout.Width - (size * 0.2), top + size), share, new PlotText(size, PlotAnchor.End));
        var (left, width) = (Math.Min(zero, end), Math.Abs(end - zero));
        var bar = new PlotArea(left, top + (size * 1.4), width, Math.Max(size * 0.4, height - (size * 2)));
        surface.Shape(bar.Corners(), entry.SharePercent < 0 ? PlotInk.Gate : PlotInk.Curve);
        surface.Line(new(zero, bar.Top - (size * 0.1)), new(zero, bar.Bottom + (size * 0.1)), new PlotPen(PlotInk.Axis, size * 0.1));
    }

    // Long words end in an ellipsis; the reading and the table have them whole.
    private static string Shortened(string text, PlotLayout layout)
    {
        var room = layout.Width - (layout.TextSize * 0.4);
        if (TextExtent.Width(text, layout.TextSize) <= room)
        {
            return text;
        }

        var length = text.Length - 1;
        while (length > 0 && TextExtent.Width(text[..length] + "…", layout.TextSize) > room)
        {
            length--;
        }

        return text[..length].TrimEnd() + "…";
    }

    private static LinearScale Scale(IReadOnlyList<BudgetEntry> rows, PlotLayout layout)
    {
        var shares = rows.Select(row => row.SharePercent).ToList();
        return new LinearScale(Math.Min(0, shares.DefaultIfEmpty(0).Min()), Math.Max(100, shares.DefaultIfEmpty(0).Max()), layout.TextSize * 0.2, layout.Width - (layout.TextSize * 0.2));
    }

    private string TotalInWords()
    {
        var sum = $"Total {Words.Percent(Math.Round(_entries.Sum(entry => entry.SharePercent), 1))} of u²";
        return _budget.Total.Length == 0 ? sum : $"{sum}, {_budget.Total}";
    }

    /// <summary>As many as there is room for; the smallest are put together.</summary>
    private IReadOnlyList<BudgetEntry> Rows(int most)
    {
        if (_entries.Count <= most)
        {
            return _entries;
        }

        var rest = _entries.Skip(most - 1).ToList();
        var together = new BudgetEntry(Words.Significant(rest.Count) + " further inputs", rest.Sum(entry => entry.SharePercent));
        return [.. _entries.Take(most - 1), together];
    }
}
