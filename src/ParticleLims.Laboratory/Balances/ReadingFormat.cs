using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Metadata.Builders;
using ParticleLims.Laboratory.Record;
using ParticleLims.Laboratory.Storage;

namespace ParticleLims.Laboratory.Balances;

/// <summary>What ends a line, or a command.</summary>
public enum LineEnd
{
    CarriageReturnLineFeed,
    LineFeed,
    CarriageReturn,
}

/// <summary>What a line without a stability mark means.</summary>
public enum LineWithoutMark
{
    /// <summary>It gives no mass.</summary>
    Refused,
    Stable,
    Unstable,
}

/// <summary>How a kind of balance writes a reading in one line. Balances name it; the name stays.</summary>
public sealed class ReadingFormat : IVersioned, IRemovable
{
    public Guid Id { get; init; }
    public required string Name { get; init; }

    /// <summary>The shape of a whole line, with named parts.</summary>
    public required string Pattern { get; set; }

    /// <summary>Marks that call a reading stable, separated by blanks; so also the other three.</summary>
    public required string StableMarks { get; set; }
    public required string UnstableMarks { get; set; }
    public required string OverloadMarks { get; set; }
    public required string UnderloadMarks { get; set; }
    public LineWithoutMark WithoutMark { get; set; }

    /// <summary>Whether one line comes for each press of the balance's print key: each stable line is a weighing of its own.</summary>
    public bool EachLineIsPrint { get; set; }

    /// <summary>The units admitted, separated by blanks; one that is not g, mg or kg with its grams, as in <c>ct=0.2</c>.</summary>
    public required string Units { get; set; }

    /// <summary>Whether a comma stands where others write a point.</summary>
    public bool DecimalComma { get; set; }

    /// <summary>Whether each line ends with four check characters (CRC-16).</summary>
    public bool Checked { get; set; }
    public LineEnd LineEnd { get; set; }

    /// <summary>The longest line, 8 to 512 characters.</summary>
    public int MostCharacters { get; set; }

    /// <summary>Whether the balance may be in the middle of a line when it is reached; the first line is then not used.</summary>
    public bool FirstLineMayBeCut { get; set; }

    /// <summary>The command that asks for a reading; null when the balance sends by itself.</summary>
    public string? Command { get; set; }
    public LineEnd CommandEnd { get; set; }

    /// <summary>How often it is asked; null to ask never.</summary>
    public int? AskEveryMilliseconds { get; set; }

    /// <summary>After so long without a line the link counts as lost; null for a balance that may be silent.</summary>
    public int? LostAfterMilliseconds { get; set; }
    public long Version { get; set; }

    /// <summary>The format as people write it.</summary>
    public ReadingFormatCard Card() => new()
    {
        Name = Name, Pattern = Pattern, StableMarks = StableMarks, UnstableMarks = UnstableMarks, OverloadMarks = OverloadMarks, UnderloadMarks = UnderloadMarks, WithoutMark = WithoutMark, EachLineIsPrint = EachLineIsPrint, Units = Units,
        DecimalComma = DecimalComma, Checked = Checked, LineEnd = LineEnd, MostCharacters = MostCharacters, FirstLineMayBeCut = FirstLineMayBeCut, Command = Command, CommandEnd = CommandEnd,
        AskEveryMilliseconds = AskEveryMilliseconds, LostAfterMilliseconds = LostAfterMilliseconds,
    };

    /// <summary>Takes over everything but the name.</summary>
    internal void Take(ReadingFormatCard card)
    {
        (Pattern, Units, DecimalComma, Checked) = (card.Pattern, card.Units, card.DecimalComma, card.Checked);
        (StableMarks, UnstableMarks, OverloadMarks, UnderloadMarks, WithoutMark) = (card.StableMarks, card.UnstableMarks, card.OverloadMarks, card.UnderloadMarks, card.WithoutMark);
        (LineEnd, MostCharacters, FirstLineMayBeCut) = (card.LineEnd, card.MostCharacters, card.FirstLineMayBeCut);
        EachLineIsPrint = card.EachLineIsPrint;
        (Command, CommandEnd, AskEveryMilliseconds, LostAfterMilliseconds) = (card.Command, card.CommandEnd, card.AskEveryMilliseconds, card.LostAfterMilliseconds);
    }
}

internal sealed class ReadingFormatTable : IEntityTypeConfiguration<ReadingFormat>
{
    public void Configure(EntityTypeBuilder<ReadingFormat> builder)
    {
        builder.ToTable("reading_formats").HasIndex(format => format.Name).IsUnique();
        builder.Property(format => format.Name).HasMaxLength(60);
        builder.Property(format => format.Pattern).HasMaxLength(400);
        builder.Property(format => format.Units).HasMaxLength(120);
        builder.Property(format => format.Command).HasMaxLength(40);
        foreach (var marks in (string[])[nameof(ReadingFormat.StableMarks), nameof(ReadingFormat.UnstableMarks), nameof(ReadingFormat.OverloadMarks), nameof(ReadingFormat.UnderloadMarks)])
        {
            builder.Property<string>(marks).HasMaxLength(60);
        }

        builder.HasData(FirstReadingFormats.All);
    }
}

/// <summary>Names the table.</summary>
public static class ReadingFormatsTable
{
    extension(LaboratoryContext data)
    {
        /// <summary>All reading formats.</summary>
        public DbSet<ReadingFormat> ReadingFormats => data.Set<ReadingFormat>();
    }
}
