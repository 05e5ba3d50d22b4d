using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Metadata.Builders;
using ParticleLims.Laboratory.Lots;
using ParticleLims.Laboratory.Record;
using ParticleLims.Laboratory.Runs;
using ParticleLims.Laboratory.Storage;

namespace ParticleLims.Laboratory.Investigations;

/// <summary>The state of an investigation.</summary>
public enum InvestigationState
{
    LaboratoryPhase,
    FullPhase,
    Closed,
}

/// <summary>What an investigation found.</summary>
public enum InvestigationConclusion
{
    /// <summary>The value stands: the lot is out of specification.</summary>
    Confirmed,
    /// <summary>A documented cause in the laboratory was found: the run may be invalidated.</summary>
    LaboratoryCause,
    /// <summary>Neither; every result stays and the quality manager decides, on the side of caution.</summary>
    Inconclusive,
}

/// <summary>The record that an out-of-specification value opens.</summary>
public sealed class Investigation : IVersioned
{
    public Guid Id { get; init; }

    /// <summary>For example <c>I-26-00003</c>.</summary>
    public required string Number { get; init; }
    public Guid LotId { get; init; }
    public required string LotNumber { get; init; }

    /// <summary>The run that showed it.</summary>
    public Guid RunId { get; init; }
    public required string RunNumber { get; init; }

    /// <summary>What is out, in words with values and limits.</summary>
    public required string What { get; init; }
    public DateTimeOffset OpenedAt { get; init; }
    public InvestigationState State { get; private set; } = InvestigationState.LaboratoryPhase;
    public InvestigationConclusion? Conclusion { get; private set; }
    public string? ConclusionWords { get; private set; }
    public DateTimeOffset? ClosedAt { get; private set; }
    public string? ClosedByName { get; private set; }
    public List<InvestigationNote> Notes { get; } = [];
    public long Version { get; set; }

    /// <summary>No cause was found in the laboratory: production and other lots are looked at too.</summary>
    public void GoFull()
    {
        RequireOpen();
        State = InvestigationState.FullPhase;
    }

    /// <summary>The quality manager concludes.</summary>
    public void Conclude(DeedScope scope, InvestigationConclusion conclusion, string words)
    {
        ArgumentNullException.ThrowIfNull(scope);
        RequireOpen();
        if (State == InvestigationState.LaboratoryPhase && conclusion != InvestigationConclusion.LaboratoryCause)
        {
            throw new RefusedException("full-phase-missing", "No cause was found in the laboratory. Open the full phase, note what production and related lots showed, then conclude.");
        }

        (State, Conclusion, ConclusionWords, ClosedAt, ClosedByName) = (InvestigationState.Closed, conclusion, words.Trim(), scope.Now, scope.Marked(scope.By.Name));
    }

    /// <summary>Refuses once it is closed.</summary>
    public void RequireOpen()
    {
        if (State == InvestigationState.Closed)
        {
            throw new RefusedException("investigation-closed", $"Investigation {Number} is closed.");
        }
    }
}

/// <summary>What somebody looked at and found.</summary>
public sealed class InvestigationNote
{
    public Guid Id { get; init; }
    public Guid InvestigationId { get; init; }
    public DateTimeOffset At { get; init; }
    public required string PersonName { get; init; }
    public required string Words { get; init; }
}

/// <summary>Words for people.</summary>
public static class InvestigationWords
{
    /// <summary>The state as people say it.</summary>
    public static string Words(this InvestigationState state) => state switch
    {
        InvestigationState.LaboratoryPhase => "open, laboratory phase",
        InvestigationState.FullPhase => "open, full phase",
        InvestigationState.Closed => "closed",
        _ => throw new ArgumentOutOfRangeException(nameof(state), state, "Not a state."),
    };

    /// <summary>The conclusion as people say it.</summary>
    public static string Words(this InvestigationConclusion conclusion) => conclusion switch
    {
        InvestigationConclusion.Confirmed => "out of specification confirmed",
        InvestigationConclusion.LaboratoryCause => "cause found in the laboratory",
        InvestigationConclusion.Inconclusive => "inconclusive",
        _ => throw new ArgumentOutOfRangeException(nameof(conclusion), conclusion, "Not a conclusion."),
    };
}

internal sealed class InvestigationTables : IEntityTypeConfiguration<Investigation>, IEntityTypeConfiguration<InvestigationNote>
{
    public void Configure(EntityTypeBuilder<Investigation> builder)
    {
        builder.ToTable("investigations").HasIndex(investigation => investigation.Number).IsUnique();
        builder.Property(investigation => investigation.Number).HasMaxLength(20);
        builder.HasIndex(investigation => investigation.LotId);
        builder.HasIndex(investigation => investigation.RunId);
        builder.HasOne<Lot>().WithMany().HasForeignKey(investigation => investigation.LotId);
        builder.HasMany(investigation => investigation.Notes).WithOne().HasForeignKey(note => note.InvestigationId);
    }

    public void Configure(EntityTypeBuilder<InvestigationNote> builder) => builder.ToTable("investigation_notes");
}

/// <summary>Names the table.</summary>
public static class InvestigationsTable
{
    extension(LaboratoryContext data)
    {
        /// <summary>All investigations.</summary>
        public DbSet<Investigation> Investigations => data.Set<Investigation>();

        /// <summary>The investigations of a run and of the other replicates of its sample: their mean is what was out.</summary>
        internal IQueryable<Investigation> OfSampleOf(Run run) =>
            data.Investigations.Where(one => data.Set<Run>().Any(shown => shown.Id == one.RunId && shown.SampleId == run.SampleId));
    }
}
