using System.Globalization;
using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Metadata.Builders;
using ParticleLims.Analysis.Quantities;
using ParticleLims.Analysis.Sieves;
using ParticleLims.Laboratory.Record;

namespace ParticleLims.Laboratory.Sieves;

/// <summary>The permissible deviations of an edition, as the laboratory copied them from the document that it holds. Written once; a correction is entered again and counts from then on.</summary>
public sealed class ToleranceEdition
{
    public Guid Id { get; init; }

    /// <summary>The document and edition, as sieves name it: <c>ISO 3310-1:2016</c>.</summary>
    public required string Edition { get; init; }

    /// <summary>From which copy, table and page.</summary>
    public required string Source { get; init; }

    /// <summary>A line for each aperture: nominal, Y, X, Z, the greatest standard deviation, and the least and greatest mean diameter of the wires, in µm; a hyphen where the edition says nothing.</summary>
    public required string Lines { get; init; }

    /// <summary>How many apertures may be more than Z above nominal, percent.</summary>
    public decimal IntermediatePercent { get; init; }
    public DateTimeOffset AddedAt { get; init; }
    public required string AddedByName { get; init; }

    /// <summary>The table to judge by.</summary>
    public ToleranceTable Table => Read(Edition, Source, Lines, IntermediatePercent);

    /// <summary>Reads a table.</summary>
    /// <exception cref="RefusedException">Says which line, and why.</exception>
    internal static ToleranceTable Read(string edition, string source, string lines, decimal intermediatePercent)
    {
        var rows = lines.Split('\n', StringSplitOptions.RemoveEmptyEntries | StringSplitOptions.TrimEntries).Select(Row).ToList();
        try
        {
            return ToleranceTable.From(edition, source, rows, intermediatePercent);
        }
        catch (ArgumentException wrong)
        {
            throw new RefusedException("tolerance-table", wrong.Message.Split(" (Parameter", 2)[0], "lines");
        }
    }

    private static ToleranceRow Row(string line, int index)
    {
        var cells = line.Split([' ', '\t', ';'], StringSplitOptions.RemoveEmptyEntries);
        if (cells.Length is < 3 or > 7)
        {
            throw Wrong(index, line, "it has three to seven numbers: nominal, Y, X, Z, the greatest standard deviation, the least and the greatest diameter of the wires");
        }

        decimal? Cell(int at) => at >= cells.Length || cells[at] is "-" or "–" ? null
            : decimal.TryParse(cells[at], NumberStyles.AllowDecimalPoint, CultureInfo.InvariantCulture, out var number) && number is > 0m and < 1_000_000m ? number
            : throw Wrong(index, line, $"“{cells[at]}” is no number in µm above 0 with a decimal point, and no hyphen");
        return Cell(0) is { } nominal
            ? new ToleranceRow
            {
                Nominal = Aperture.FromMicrometres(nominal), MeanMicrometres = Cell(1), SingleMicrometres = Cell(2), IntermediateMicrometres = Cell(3), DeviationMicrometres = Cell(4),
                WireLeastMicrometres = Cell(5), WireMostMicrometres = Cell(6),
            }
            : throw Wrong(index, line, "it begins with the nominal aperture");
    }

    private static RefusedException Wrong(int index, string line, string why) =>
        new("tolerance-line", string.Create(CultureInfo.InvariantCulture, $"Line {index + 1}, “{line}”: {why}."), "lines");
}

internal sealed class ToleranceEditionTable : IEntityTypeConfiguration<ToleranceEdition>
{
    public void Configure(EntityTypeBuilder<ToleranceEdition> builder)
    {
        builder.ToTable("tolerance_editions").HasIndex(one => new { one.Edition, one.AddedAt });
        builder.Property(one => one.Edition).HasMaxLength(60);
        builder.Property(one => one.Source).HasMaxLength(400);
        builder.Property(one => one.Lines).HasMaxLength(8_000);
        builder.Ignore(one => one.Table);
    }
}
