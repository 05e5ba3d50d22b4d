using ParticleLims.Laboratory.Certificates;
using ParticleLims.Laboratory.Demonstration.Model;
using ParticleLims.Laboratory.Demonstration.Time;
using ParticleLims.Laboratory.Dispositions;
using ParticleLims.Laboratory.Investigations;
using ParticleLims.Laboratory.Lots;
using ParticleLims.Laboratory.Methods;
using ParticleLims.Laboratory.Review;
using ParticleLims.Laboratory.Runs;
using ParticleLims.Laboratory.Samples;

namespace ParticleLims.Laboratory.Demonstration;

/// <summary>A lot in the model.</summary>
internal sealed record LotInPlay(int Index, string Number, ProductLine Line, string? Customer, Powder Powder, Chance Chance)
{
    public Guid Id { get; set; }

    public Guid SampleId { get; set; }

    /// <summary>The runs that are to be carried out, by replicate.</summary>
    public List<Guid> RunIds { get; } = [];
    public MethodDraft Method { get; set; } = null!;
}

/// <summary>What happens to one lot, deed by deed.</summary>
internal sealed class LotLife(
    LotReception lots, SampleReception samples, BenchWork bench, RunReading runs, RunChanges changes, RunReview review, InvestigationWork investigations, LotDecision decisions,
    CertificateIssue certificates, CertificateShelf shelf, Catalogue catalogue, EquipmentRoom room, Crew crew, HistoryClock clock)
{
    private static readonly string[] Points = ["cross-stream cutter at the silo inlet, ten increments", "spiral sampler before bagging, twelve increments", "thief from five bags of the lot"];

    /// <summary>Books the lot in with one sample.</summary>
    public async Task ArriveAsync(LotInPlay lot, CancellationToken cancellation)
    {
        var by = await crew.AtWorkAsync(OnDuty(crew.Technicians, 0), cancellation);
        var (chance, day) = (lot.Chance, WorkingTime.DayOf(clock.Now));
        var kilograms = chance.Whole(lot.Line.Kilograms.Least / 100, lot.Line.Kilograms.Most / 100) * 100m;
        Guid? customer = lot.Customer is { } name ? catalogue.Customers[name] : null;
        var reference = lot.Customer is null ? null : string.Create(System.Globalization.CultureInfo.InvariantCulture, $"Order {chance.Whole(20_000, 79_999)}");
        lot.Id = await lots.BookInAsync(by.Actor, new NewLot(lot.Number, catalogue.ProductOf(lot.Line), customer, Given(lot.Line, kilograms, day.AddDays(-1), reference)), null, cancellation);
        clock.Pass(chance.Between(40, 120));
        (var method, lot.Method) = catalogue.MethodOf(lot.Line);
        var plan = lot.Line.Sampling;
        var (taken, shift, usual) = (clock.Now.AddMinutes(-chance.Whole(50, 240)), chance.Of(["Mill shift A", "Mill shift B", "Mill shift C"]), chance.Of(Points));
        var booked = await samples.BookInAsync(by.Actor, new NewSample(
            lot.Id, method, catalogue.SpecificationOf(lot.Line, lot.Customer), new SampleParticulars(
            taken, shift, plan?.Procedure ?? usual, "500 ml jar, full", "Sealed, dry, label legible", lot.Line.Method.Procedure == SievingProcedure.NestedStack ? SampleDivision.Riffle : SampleDivision.RotaryDivider,
            plan?.Increments, plan is null ? null : Analysis.Quantities.Mass.FromGrams(280 + chance.For(11).Whole(0, 90)), plan?.ToRecord is null ? null : BagsOf(chance.For(12)))), null, cancellation);
        lot.SampleId = booked.Id;
        lot.RunIds.AddRange(booked.RunIds);
        clock.Pass(chance.Between(40, 120));
    }

    private static LotParticulars Given(ProductLine line, decimal kilograms, DateOnly made, string? reference) => new(
        kilograms, made, reference, string.Create(System.Globalization.CultureInfo.InvariantCulture, $"{kilograms / line.Packing.Kilograms:0} {line.Packing.Name} of {line.Packing.Kilograms} kg"),
        ExpiresOn: line.MonthsOfUse is { } months ? made.AddMonths(months) : null);

    private static string BagsOf(Chance chance)
    {
        var first = chance.Whole(1, 9);
        return $"Bags {string.Join(", ", Enumerable.Range(0, 5).Select(at => string.Create(System.Globalization.CultureInfo.InvariantCulture, $"{first + (at * 8)}")))}";
    }

    /// <summary>Carries out the run of a replicate.</summary>
    /// <param name="lot">The lot.</param>
    /// <param name="replicate">1, 2, …</param>
    /// <param name="mishap">What goes wrong.</param>
    /// <param name="coarser">By what factor the test portion seems coarser than the lot truly is.</param>
    /// <param name="cancellation">Ends it.</param>
    public async Task<BenchResult> TestAsync(LotInPlay lot, int replicate, Mishap mishap, double coarser, CancellationToken cancellation)
    {
        var by = await crew.AtWorkAsync(OnDuty(crew.Technicians, 0), cancellation);
        var chance = lot.Chance.For(replicate + (100 * lot.RunIds.Count));
        var powder = lot.Powder.Coarser(coarser * (1 + (0.004 * chance.Normal(2))));
        var balance = lot.Line.Code == "PS-63" && room.Other.InService ? room.Other : room.Bench;
        return await bench.CarryOutAsync(new BenchTask(lot.RunIds[replicate - 1], lot.Method, powder, by, balance, lot.Index, chance, mishap), cancellation);
    }

    /// <summary>Puts the planned run that took another's place in its place.</summary>
    public async Task TakeReplacementAsync(LotInPlay lot, int replicate, CancellationToken cancellation) =>
        lot.RunIds[replicate - 1] = (await runs.OfLotAsync(crew.Reviewers[0].Actor, lot.Id, cancellation)).Single(run => run.State == RunState.Planned && run.Replicate == replicate).Id;

    /// <summary>A reviewer looks at a run and accepts it.</summary>
    public async Task AcceptAsync(LotInPlay lot, int replicate, CancellationToken cancellation)
    {
        var (by, run) = await LookAsync(lot, replicate, cancellation);
        await changes.OpenAsync(by.Actor, run.Id, cancellation);
        await review.AcceptAsync(by.Actor, run.Id, await crew.ProveAsync(by, cancellation), run.Version, cancellation);
    }

    /// <summary>A reviewer hands a run back.</summary>
    public async Task ReturnAsync(LotInPlay lot, int replicate, string reason, CancellationToken cancellation)
    {
        var (by, run) = await LookAsync(lot, replicate, cancellation);
        await review.ReturnAsync(by.Actor, run.Id, reason, run.Version, cancellation);
    }

    /// <summary>The technician weighs again what the reviewer asked for and submits anew.</summary>
    public async Task CorrectAsync(BenchResult run, RunStep step, string reason, CancellationToken cancellation)
    {
        await crew.AtWorkAsync(run.Task.By, cancellation);
        await bench.CorrectAsync(run, step, reason, cancellation);
    }

    /// <summary>A reviewer invalidates a run whose cause was found; the one in its place is the next.</summary>
    public async Task InvalidateAsync(LotInPlay lot, int replicate, string cause, CancellationToken cancellation)
    {
        var (by, run) = await LookAsync(lot, replicate, cancellation);
        await review.InvalidateAsync(by.Actor, run.Id, cause, await crew.ProveAsync(by, cancellation), run.Version, cancellation);
        await TakeReplacementAsync(lot, replicate, cancellation);
    }

    /// <summary>Somebody notes in the lot's investigation.</summary>
    public async Task NoteAsync(LotInPlay lot, Member by, string words, CancellationToken cancellation)
    {
        await crew.AtWorkAsync(by, cancellation);
        await investigations.NoteAsync(by.Actor, (await InvestigationAsync(lot, cancellation)).Id, words, null, cancellation);
        clock.Pass(lot.Chance.Between(200, 900));
    }

    /// <summary>The laboratory manager opens the full phase.</summary>
    public async Task GoFullAsync(LotInPlay lot, string reason, CancellationToken cancellation)
    {
        var by = await crew.AtWorkAsync(crew.LaboratoryManager, cancellation);
        var open = await InvestigationAsync(lot, cancellation);
        await investigations.GoFullAsync(by.Actor, open.Id, reason, open.Version, cancellation);
        clock.Pass(lot.Chance.Between(200, 900));
    }

    /// <summary>A reviewer goes through the points of the laboratory phase; one of them may show the cause.</summary>
    public async Task AnswerAsync(LotInPlay lot, Member by, (PhasePoint Point, string Words)? found, CancellationToken cancellation)
    {
        await crew.AtWorkAsync(by, cancellation);
        var open = await InvestigationAsync(lot, cancellation);
        foreach (var point in PhasePoints.All)
        {
            var (finding, words) = found is { } cause && cause.Point == point ? (PointFinding.Found, cause.Words) : (PointFinding.InOrder, CaseWords.InOrder(point));
            await investigations.AnswerAsync(by.Actor, open.Id, point, finding, words, null, cancellation);
            clock.Pass(lot.Chance.Between(60, 400));
        }
    }

    /// <summary>A reviewer explains a value out of trend, where there is one.</summary>
    public async Task ExplainAsync(LotInPlay lot, string words, CancellationToken cancellation)
    {
        if ((await investigations.AllAsync(crew.Reviewers[0].Actor, lot.Id, cancellation)).Find(one => one is { Kind: InvestigationKind.OutOfTrend, State: not InvestigationState.Closed }) is { } open)
        {
            var by = await crew.AtWorkAsync(OnDuty(crew.Reviewers, 1), cancellation);
            await investigations.ExplainAsync(by.Actor, open.Id, words, open.Version, cancellation);
            clock.Pass(lot.Chance.Between(200, 900));
        }
    }

    /// <summary>A lot that may be touched by the same cause is named.</summary>
    public async Task AssociateAsync(LotInPlay lot, string? otherNumber, string words, CancellationToken cancellation)
    {
        var by = await crew.AtWorkAsync(crew.LaboratoryManager, cancellation);
        var open = await InvestigationAsync(lot, cancellation);
        await (otherNumber is null ? investigations.NoOtherLotsAsync(by.Actor, open.Id, words, open.Version, cancellation) : investigations.AssociateAsync(by.Actor, open.Id, otherNumber, words, null, cancellation));
        clock.Pass(lot.Chance.Between(200, 900));
    }

    /// <summary>The quality manager concludes.</summary>
    public async Task ConcludeAsync(LotInPlay lot, InvestigationConclusion conclusion, LaboratoryCauseKind? cause, string reason, CancellationToken cancellation)
    {
        var by = await crew.AtWorkAsync(crew.QualityManager, cancellation);
        var open = await InvestigationAsync(lot, cancellation);
        await investigations.ConcludeAsync(by.Actor, open.Id, conclusion, cause, reason, await crew.ProveAsync(by, cancellation), open.Version, cancellation);
        clock.Pass(lot.Chance.Between(200, 900));
    }

    /// <summary>The quality manager releases the lot and issues its certificate.</summary>
    public async Task ReleaseAsync(LotInPlay lot, bool certificate, CancellationToken cancellation)
    {
        var by = await crew.AtWorkAsync(crew.QualityManager, cancellation);
        var shown = await ShownAsync(lot, cancellation);
        await decisions.ReleaseAsync(by.Actor, lot.Id, await crew.ProveAsync(by, cancellation), shown, cancellation);
        if (certificate)
        {
            await IssueAsync(lot, cancellation);
        }
    }

    /// <summary>The quality manager rejects the lot.</summary>
    public async Task RejectAsync(LotInPlay lot, string reason, CancellationToken cancellation)
    {
        var by = await crew.AtWorkAsync(crew.QualityManager, cancellation);
        var shown = await ShownAsync(lot, cancellation);
        await decisions.RejectAsync(by.Actor, lot.Id, reason, await crew.ProveAsync(by, cancellation), shown, cancellation);
    }

    /// <summary>The laboratory manager proposes a concession.</summary>
    public async Task ProposeAsync(LotInPlay lot, string reason, CancellationToken cancellation)
    {
        var by = await crew.AtWorkAsync(crew.LaboratoryManager, cancellation);
        await decisions.ProposeConcessionAsync(by.Actor, lot.Id, reason, cancellation);
    }

    /// <summary>The quality manager grants it and issues the certificate.</summary>
    public async Task ConcedeAsync(LotInPlay lot, string reason, CancellationToken cancellation)
    {
        var by = await crew.AtWorkAsync(crew.QualityManager, cancellation);
        var shown = await ShownAsync(lot, cancellation);
        await decisions.ConcedeAsync(by.Actor, lot.Id, reason, await crew.ProveAsync(by, cancellation), shown, cancellation);
        await IssueAsync(lot, cancellation);
    }

    /// <summary>The quality manager takes the certificate back.</summary>
    public async Task WithdrawAsync(LotInPlay lot, string reason, CancellationToken cancellation)
    {
        var by = await crew.AtWorkAsync(crew.QualityManager, cancellation);
        var issued = (await shelf.AllAsync(by.Actor, lot.Id, null, 1, cancellation)).Single();
        await certificates.WithdrawAsync(by.Actor, issued.Id, reason, issued.Version, cancellation);
    }

    private async Task IssueAsync(LotInPlay lot, CancellationToken cancellation)
    {
        clock.Pass(lot.Chance.Between(30, 90));
        await certificates.IssueAsync(crew.QualityManager.Actor, lot.Id, lot.SampleId, null, cancellation);
        clock.Pass(lot.Chance.Between(60, 200));
    }

    private async Task<(Member By, Run Run)> LookAsync(LotInPlay lot, int replicate, CancellationToken cancellation)
    {
        var by = await crew.AtWorkAsync(OnDuty(crew.Reviewers, 1), cancellation);
        var view = await runs.FindAsync(by.Actor, lot.RunIds[replicate - 1], cancellation);
        clock.Pass(lot.Chance.Between(90, 300));
        return (by, view!.Run);
    }

    private async Task<string> ShownAsync(LotInPlay lot, CancellationToken cancellation)
    {
        var evidence = await decisions.ReadAsync(crew.QualityManager.Actor, lot.Id, cancellation);
        clock.Pass(lot.Chance.Between(60, 240));
        return evidence!.ContentHash;
    }

    private async Task<Investigation> InvestigationAsync(LotInPlay lot, CancellationToken cancellation) =>
        (await investigations.AllAsync(crew.Reviewers[0].Actor, lot.Id, cancellation)).Single(one => one.Kind == InvestigationKind.OutOfSpecification);

    /// <summary>Who of several has the day.</summary>
    private Member OnDuty(IReadOnlyList<Member> several, int shift) => several[(WorkingTime.DayOf(clock.Now).DayNumber + shift) % several.Count];
}
