using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Metadata.Builders;
using ParticleLims.Laboratory.Customers;
using ParticleLims.Laboratory.Products;
using ParticleLims.Laboratory.Record;
using ParticleLims.Laboratory.Storage;

namespace ParticleLims.Laboratory.Lots;

/// <summary>The state of a lot.</summary>
public enum LotState
{
    AwaitingResults,
    AwaitingDisposition,
    Released,
    OnHold,
    Rejected,
    ReleasedByConcession,
}

/// <summary>A made quantity that is released or not as a whole.</summary>
public sealed class Lot : IVersioned
{
    public Guid Id { get; init; }

    /// <summary>The mill's number; unique.</summary>
    public required string Number { get; init; }

    /// <summary>The number as it is searched: upper case.</summary>
    public required string SearchNumber { get; init; }
    public Guid ProductId { get; init; }
    public Guid? CustomerId { get; init; }

    /// <summary>In kilograms.</summary>
    public decimal QuantityKilograms { get; private set; }
    public DateOnly MadeOn { get; private set; }

    /// <summary>The customer's order or item number, as given.</summary>
    public string? CustomerReference { get; private set; }

    /// <summary>What it is packed in, for example "40 paper sacks of 25 kg"; null where nobody said.</summary>
    public string? Container { get; private set; }

    /// <summary>The day from which on it is tested again before use; null for none.</summary>
    public DateOnly? RetestOn { get; private set; }

    /// <summary>The last day of use; null for none.</summary>
    public DateOnly? ExpiresOn { get; private set; }
    public DateTimeOffset BookedInAt { get; init; }

    /// <summary>The rejected lot that was reworked into this one; null where it was made anew.</summary>
    public Guid? ReworkedFromId { get; init; }

    /// <summary>How it was reworked, and by which procedure.</summary>
    public string? ReworkWords { get; init; }

    /// <summary>The sample in whose place one new sample may be taken although the lot is held; null where none may.</summary>
    public Guid? SampleToReplaceId { get; private set; }

    /// <summary>Why the new sample may be taken.</summary>
    public string? NewSampleBecause { get; private set; }
    public LotState State { get; private set; } = LotState.AwaitingResults;
    public long Version { get; set; }

    /// <summary>The meaning of the quality manager's signature that puts a lot on hold.</summary>
    public const string HeldMeaning = "held";

    /// <summary>The meaning of the quality manager's signature that opens a decided lot again.</summary>
    public const string ReopenedMeaning = "re-opened";

    /// <summary>What was given with the lot.</summary>
    public required LotParticulars Particulars
    {
        get => new(QuantityKilograms, MadeOn, CustomerReference, Container, RetestOn, ExpiresOn);
        set
        {
            ArgumentNullException.ThrowIfNull(value);
            (QuantityKilograms, MadeOn, CustomerReference, Container, RetestOn, ExpiresOn) = (value.QuantityKilograms, value.MadeOn, value.CustomerReference, value.Container, value.RetestOn, value.ExpiresOn);
        }
    }

    /// <summary>Whether the lot was decided for good: released, by concession too, or rejected.</summary>
    public bool IsDecided => State is LotState.Released or LotState.Rejected or LotState.ReleasedByConcession;

    /// <summary>All results are in: the lot waits for its decision. A held lot stays held.</summary>
    public void ResultsAreIn()
    {
        if (State == LotState.AwaitingResults)
        {
            State = LotState.AwaitingDisposition;
        }
    }

    /// <summary>A result was taken back or a new sample came: results are awaited again.</summary>
    public void AwaitResults()
    {
        if (State == LotState.AwaitingDisposition)
        {
            State = LotState.AwaitingResults;
        }
    }

    /// <summary>A value is out of specification: held at once, whoever enters it.</summary>
    public void HoldForInvestigation()
    {
        if (State is LotState.AwaitingResults or LotState.AwaitingDisposition)
        {
            State = LotState.OnHold;
        }
    }

    /// <summary>The value had a cause in the laboratory: the lot waits for results again.</summary>
    public void EndHold()
    {
        if (State == LotState.OnHold)
        {
            State = LotState.AwaitingResults;
        }
    }

    /// <summary>One new sample may be taken in the place of another, by the quality manager's signature.</summary>
    internal void PermitSample(Guid sampleId, string because)
    {
        if (SampleToReplaceId is not null)
        {
            throw new RefusedException("sample-permitted", $"One new sample of lot {Number} is permitted already, and was not booked in yet.");
        }

        (SampleToReplaceId, NewSampleBecause) = (sampleId, because.Trim());
    }

    /// <summary>Uses the permission up: which sample the new one stands in for, and why. A lot that is not held needs none.</summary>
    /// <exception cref="RefusedException">The lot is held or decided, and no new sample of it was permitted.</exception>
    internal (Guid SampleId, string Because)? TakeSample()
    {
        if (State is LotState.AwaitingResults or LotState.AwaitingDisposition)
        {
            return null;
        }

        if (State != LotState.OnHold || SampleToReplaceId is not { } sample)
        {
            throw new RefusedException("lot-closed", $"Lot {Number} is {State.Words()}: no further sample of it can be booked in." + (State == LotState.OnHold ? " While a value is investigated only the quality manager permits a new one, by signature, on the investigation's page." : string.Empty));
        }

        var permitted = (sample, NewSampleBecause!);
        (SampleToReplaceId, NewSampleBecause) = (null, null);
        return permitted;
    }

    /// <summary>Who corrects what came with a lot or its samples changes with the decision: its certificates say it.</summary>
    /// <param name="decided">Whether somebody corrects who may do so after the decision.</param>
    /// <exception cref="RefusedException">The lot is in the other half of its life.</exception>
    internal void RequireCorrectable(bool decided)
    {
        if (IsDecided != decided)
        {
            throw new RefusedException("lot-decided", $"Lot {Number} is {State.Words()}: " + (decided
                ? "whoever books in corrects what came with it and with its samples."
                : "only the quality manager corrects what came with it and with its samples, for its certificates say it."));
        }
    }

    /// <summary>A decided lot is held again.</summary>
    internal void Reopen()
    {
        if (!IsDecided)
        {
            throw new RefusedException("lot-undecided", $"Lot {Number} is {State.Words()}; there is nothing to open again.");
        }

        State = LotState.OnHold;
    }

    /// <summary>The quality manager's decision.</summary>
    /// <exception cref="RefusedException">The lot was decided already, or has no results yet.</exception>
    public void Decide(LotState decision)
    {
        if (IsDecided)
        {
            throw new RefusedException("lot-decided", $"Lot {Number} is {State.Words()} already.");
        }

        if (decision is LotState.Released or LotState.ReleasedByConcession && State == LotState.AwaitingResults)
        {
            throw new RefusedException("lot-awaits-results", $"Lot {Number} still awaits results.");
        }

        State = decision;
    }
}

/// <summary>Lot states in words.</summary>
public static class LotStateWords
{
    /// <summary>The state as people say it.</summary>
    public static string Words(this LotState state) => state switch
    {
        LotState.AwaitingResults => "awaiting results",
        LotState.AwaitingDisposition => "awaiting disposition",
        LotState.Released => "released",
        LotState.OnHold => "on hold",
        LotState.Rejected => "rejected",
        LotState.ReleasedByConcession => "released by concession",
        _ => throw new ArgumentOutOfRangeException(nameof(state), state, "Not a state."),
    };
}

internal sealed class LotTable : IEntityTypeConfiguration<Lot>
{
    public void Configure(EntityTypeBuilder<Lot> builder)
    {
        builder.ToTable("lots").HasIndex(lot => lot.SearchNumber).IsUnique();
        builder.Property(lot => lot.Number).HasMaxLength(60);
        builder.Ignore(lot => lot.IsDecided);
        builder.Ignore(lot => lot.Particulars);
        builder.Property(lot => lot.Container).HasMaxLength(LotParticulars.LongestContainer);
        builder.Property(lot => lot.SearchNumber).HasMaxLength(60);
        builder.HasIndex(lot => new { lot.State, lot.BookedInAt });
        builder.HasIndex(lot => new { lot.BookedInAt, lot.Id });
        builder.HasIndex(lot => new { lot.ProductId, lot.BookedInAt, lot.Id });
        builder.HasIndex(lot => new { lot.CustomerId, lot.BookedInAt, lot.Id });
        builder.HasIndex(lot => new { lot.MadeOn, lot.Id });
        builder.HasIndex(lot => new { lot.SearchNumber, lot.Id });
        builder.HasOne<Product>().WithMany().HasForeignKey(lot => lot.ProductId);
        builder.HasOne<Customer>().WithMany().HasForeignKey(lot => lot.CustomerId);
    }
}

/// <summary>Names the table.</summary>
public static class LotsTable
{
    extension(LaboratoryContext data)
    {
        /// <summary>All lots.</summary>
        public DbSet<Lot> Lots => data.Set<Lot>();
    }
}
