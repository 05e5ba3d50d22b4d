using ParticleLims.Analysis.Quantities;
using ParticleLims.Analysis.Sieves;
using ParticleLims.Laboratory.Equipment;
using ParticleLims.Laboratory.Record;

namespace ParticleLims.Laboratory.Sieves;

/// <summary>Measured apertures as a document gives them.</summary>
public sealed record ApertureCard
{
    public EquipmentDocumentKind Kind { get; init; } = EquipmentDocumentKind.InspectionCertificate;
    public required string Document { get; init; }
    public required DateOnly MeasuredOn { get; init; }

    /// <summary>The mean of all apertures; where the document gives only warp and weft, null.</summary>
    public Aperture? Mean { get; init; }

    /// <summary>The mean aperture in the direction of the warp, where the document tells the directions apart.</summary>
    public Aperture? MeanWarp { get; init; }

    /// <summary>The mean aperture in the direction of the weft, where the document tells the directions apart.</summary>
    public Aperture? MeanWeft { get; init; }

    /// <summary>The mean diameter of the wires in µm, to the nanometre, where the document says it.</summary>
    public decimal? WireMicrometres { get; init; }
    public required Aperture Largest { get; init; }
    public Aperture? Deviation { get; init; }
    public Aperture? ExpandedUncertainty { get; init; }
    public required int Count { get; init; }
    public int? CountBeyond { get; init; }

    private Aperture MeanOfAll() => Mean ?? (MeanWarp is { } warp && MeanWeft is { } weft ? Aperture.FromNanometres((warp.Nanometres + weft.Nanometres) / 2)
        : throw new RefusedException("aperture-mean", "Enter the mean aperture, or the means of warp and weft where the document gives these.", "mean"));

    /// <summary>Judges the numbers by the tolerances of the edition; refuses a maker's document with apertures out of tolerance: either a number is wrong or the sieve is not what it says.</summary>
    /// <exception cref="RefusedException">Says what is wrong.</exception>
    internal ApertureVerdict Judge(Aperture nominal, ToleranceTable table, DateOnly today)
    {
        RequireDocument(today);
        var inspection = new ApertureInspection
        {
            Nominal = nominal, MeanMicrometres = (double)MeanOfAll().Micrometres, WarpMicrometres = (double?)MeanWarp?.Micrometres, WeftMicrometres = (double?)MeanWeft?.Micrometres, WireMicrometres = WireMicrometres,
            LargestMicrometres = (double)Largest.Micrometres, DeviationMicrometres = (double?)Deviation?.Micrometres,
            Count = Count, CountBeyondIntermediate = CountBeyond,
        };
        var verdict = ApertureJudgement.Of(inspection, table)
            ?? throw new RefusedException("edition-missing", $"{table.Edition} has no tolerances for {nominal}. Enter the table of the edition that you hold, or add the document as a file and commission the sieve by the list.", "mean");
        return verdict.Conforms == false && Kind != EquipmentDocumentKind.Other
            ? throw new RefusedException("aperture-outside", $"{string.Join(' ', verdict.Points.Where(point => point.IsKept == false).Select(point => point.Words))} Compare the numbers with the document; if they are right, do not use the sieve and send it back.", "mean")
            : verdict;
    }

    /// <summary>Enters the measurement within a running deed; the laboratory's own that does not conform takes the sieve out of service. Answers whether it conforms; null where something was not determined.</summary>
    internal bool? Enter(DeedScope scope, TestSieve sieve, ToleranceTable table, DateOnly today, string what)
    {
        var verdict = Judge(sieve.Aperture, table, today);
        scope.Data.Add(new ApertureMeasurement
        {
            Id = scope.NewId(), SieveId = sieve.Id, At = scope.Now, PersonName = scope.By.Name, Kind = Kind, Document = Document.Trim(), MeasuredOn = MeasuredOn, Mean = MeanOfAll(), Largest = Largest,
            MeanWarp = MeanWarp, MeanWeft = MeanWeft, WireNanometres = (long?)(WireMicrometres * 1_000m),
            Deviation = Deviation, ExpandedUncertainty = ExpandedUncertainty, Count = Count, CountBeyond = CountBeyond, Edition = verdict.Edition, Conforms = verdict.Conforms,
            Points = string.Join('\n', verdict.Points.Select(point => point.Words).Concat(verdict.Unjudged)),
        });
        EquipmentKeeping.Tell(scope, sieve.Id, what, $"{Document.Trim()}: mean {MeanOfAll()}{(MeanWarp is { } warp && MeanWeft is { } weft ? $" (warp {warp}, weft {weft})" : string.Empty)}; {(verdict.Conforms switch { true => "conforms", false => "does not conform", _ => "not everything was determined" })} by {verdict.Edition}");
        Stop(scope, sieve, verdict.Conforms == false ? "measured apertures are out of tolerance" : null);
        return verdict.Conforms;
    }

    /// <summary>Takes a sieve out of service within a running deed; does nothing where there is no reason.</summary>
    internal static void Stop(DeedScope scope, TestSieve sieve, string? why)
    {
        if (why is not null && sieve.State is (EquipmentState.InService or EquipmentState.AwaitingCommissioning))
        {
            sieve.Move(EquipmentState.OutOfService, why, sieve.State);
            EquipmentKeeping.Tell(scope, sieve.Id, "Taken out of service", why);
        }
    }

    private void RequireDocument(DateOnly today)
    {
        if (string.IsNullOrWhiteSpace(Document) || MeasuredOn > today || Kind == EquipmentDocumentKind.Photograph)
        {
            throw new RefusedException("aperture-document", "Name the document and the day of the measurement; it does not lie in the future.", MeasuredOn > today ? "measuredOn" : "document");
        }

        RequireMeans();
        if (Count is < 1 or > 1_000_000 || CountBeyond < 0 || CountBeyond > Count || Largest < MeanOfAll() || Largest < MeanWarp || Largest < MeanWeft)
        {
            throw new RefusedException("aperture-count", "At least one aperture was measured, none counts below zero, and the largest is not below the mean.", "count");
        }
    }

    // Rounding keeps an order, so that the mean of all lies between its directions in every document that rounds them alike.
    private void RequireMeans()
    {
        if (MeanWarp is null != MeanWeft is null)
        {
            throw new RefusedException("aperture-directions", "A document that tells the directions apart gives the means of both, warp and weft. Enter the other one too, or the mean of all alone.", MeanWarp is null ? "meanWarp" : "meanWeft");
        }

        if (MeanWarp is { } warp && MeanWeft is { } weft && Mean is { } mean && (mean < (warp < weft ? warp : weft) || mean > (warp < weft ? weft : warp)))
        {
            throw new RefusedException("aperture-directions", $"The mean of all, {mean}, lies between those of warp, {warp}, and weft, {weft}. Compare the numbers with the document.", "mean");
        }

        if (WireMicrometres is { } wire && (wire is <= 0m or > 100_000m || decimal.Round(wire, 3) != wire))
        {
            throw new RefusedException("aperture-wire", "The mean diameter of the wires lies above 0 µm and at most at 100 mm, to 0.001 µm.", "wire");
        }
    }
}
