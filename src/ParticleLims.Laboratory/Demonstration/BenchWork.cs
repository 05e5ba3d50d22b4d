using System.Globalization;
using ParticleLims.Analysis.Quantities;
using ParticleLims.Laboratory.Demonstration.Model;
using ParticleLims.Laboratory.Demonstration.Time;
using ParticleLims.Laboratory.Methods;
using ParticleLims.Laboratory.Runs;

namespace ParticleLims.Laboratory.Demonstration;

/// <summary>What goes wrong in a run.</summary>
internal enum Mishap
{
    None,
    /// <summary>A residue is weighed with the brush on the pan, and at once again.</summary>
    BrushOnPan,
    /// <summary>The pressure falls out of the method's band for a while.</summary>
    WeakVacuum,
    /// <summary>The cover comes off; the run is abandoned.</summary>
    CoverOff,
    /// <summary>The technician is interrupted half way; the run stays in progress.</summary>
    Interrupted,
}

/// <summary>A run to be carried out.</summary>
internal sealed record BenchTask(Guid RunId, MethodDraft Method, Powder Powder, Member By, BalanceInPlay Balance, int Turn, Chance Chance, Mishap Mishap = Mishap.None);

/// <summary>A run carried out: which weighing each step left, and what truly lay on the pan.</summary>
internal sealed record BenchResult(BenchTask Task, IReadOnlyDictionary<RunStep, (Guid Id, double Grams)> Weighings);

/// <summary>The guided run as a technician carries it out, by the same services and in the same order.</summary>
internal sealed class BenchWork(RunStart start, RunPreparing preparing, RunScanning scanning, RunLooking looking, TareHistory tares, RunWeighing weighing, RunSieving sieving, RunSubmission submission, RunReading runs, EquipmentRoom room, History history, HistoryClock clock)
{
    private const double NoiseGrams = 0.0004;
    private long keys;

    /// <summary>Carries a run out and submits it, unless its mishap ends it.</summary>
    public async Task<BenchResult> CarryOutAsync(BenchTask task, CancellationToken cancellation)
    {
        await room.CheckAsync(task.Balance, task.By, cancellation);
        await room.LookAsync(room.Take(task.Method.Apertures, task.Turn), task.By, cancellation);
        var sieves = room.Take(task.Method.Apertures, task.Turn);
        var unit = task.Method.Procedure == SievingProcedure.NestedStack ? room.Units.Shaker : room.Units.AirJet;
        await start.StartAsync(task.By.Actor, task.RunId, new RunEquipment(task.Balance.Id, [.. sieves.Select(sieve => sieve.Id)], unit), 1, NextKey(), null, cancellation);
        var portion = new TestPortion(
            task.Powder, task.Method.Procedure, sieves, ((double)task.Method.PortionLeast.Grams, (double)task.Method.PortionMost.Grams), history.PartAt(clock.Now), task.Chance);
        var taken = new Dictionary<RunStep, (Guid, double)>();
        var steps = RunPlan.Steps(task.Method.ToVersion(Guid.Empty, Guid.Empty, 1, (task.By.Id, task.By.Card.FullName, clock.Now)));
        foreach (var step in Ended(task.Mishap) ? steps.Take((steps.Count / 2) - 1) : steps)
        {
            await ScanAsync(task, step, sieves, cancellation);
            await DoAsync(task, step, portion, sieves, taken, step == Odd(task.Mishap, steps), cancellation);
        }

        await EndAsync(task, cancellation);
        return new BenchResult(task, taken);
    }

    /// <summary>Takes the weighing of a step again, as the reviewer asked, and submits the run anew.</summary>
    public async Task CorrectAsync(BenchResult run, RunStep step, string reason, CancellationToken cancellation)
    {
        var (id, grams) = run.Weighings[step];
        clock.Pass(run.Task.Chance.Between(60, 200));
        await room.CheckAsync(run.Task.Balance, run.Task.By, cancellation);
        await weighing.TakeAgainAsync(run.Task.By.Actor, run.Task.RunId, id, Read(run.Task, grams), reason, NextKey(), cancellation);
        clock.Pass(40);
        await submission.SubmitAsync(run.Task.By.Actor, run.Task.RunId, NextKey(), cancellation);
    }

    private static bool Ended(Mishap mishap) => mishap is Mishap.CoverOff or Mishap.Interrupted;

    private static RunStep? Odd(Mishap mishap, IReadOnlyList<RunStep> steps) => mishap switch
    {
        Mishap.BrushOnPan => steps.First(step => step.Weighing == WeighingKind.After),
        Mishap.WeakVacuum => steps.First(step => step.Kind == RunStepKind.Sieve),
        _ => null,
    };

    private async Task DoAsync(BenchTask task, RunStep step, TestPortion portion, IReadOnlyList<SieveInPlay> sieves, Dictionary<RunStep, (Guid, double)> taken, bool odd, CancellationToken cancellation)
    {
        switch (step.Kind)
        {
            case RunStepKind.Sieve:
                await SieveAsync(task, step, odd, cancellation);
                return;
            case RunStepKind.Prepare:
                await ReadRoomAsync(task, cancellation);
                return;
        }

        clock.Pass(task.Chance.Between(22, 48));
        var grams = portion.OnPan(step.Weighing!.Value, step.Position, step.Round);
        await LookAsync(task, step, grams, sieves, cancellation);
        var done = await weighing.TakeAsync(task.By.Actor, task.RunId, step, Read(task, odd ? grams + 0.214 : grams), NextKey(), cancellation);
        if (odd)
        {
            clock.Pass(task.Chance.Between(15, 40));
            done = await weighing.TakeAgainAsync(task.By.Actor, task.RunId, done.Id, Read(task, grams), "The cleaning brush touched the pan", NextKey(), cancellation);
        }

        taken[step] = (done.Id, grams);
    }

    // As the bench would ask: an empty sieve that weighs more or less than usual is looked at first.
    private async Task LookAsync(BenchTask task, RunStep step, double grams, IReadOnlyList<SieveInPlay> sieves, CancellationToken cancellation)
    {
        if (step.Weighing != WeighingKind.Empty
            || await tares.UsualAsync(task.By.Actor, sieves[step.Position - 1].Id, cancellation) is not { } usual
            || Math.Abs(grams - (double)usual.Grams) + (5 * NoiseGrams) < (double)Plausibility.UnusualTare.Grams)
        {
            return;
        }

        clock.Pass(task.Chance.Between(90, 240));
        await looking.LookAsync(task.By.Actor, task.RunId, step.Position, "Brushed from below and weighed again, it stays so. Mesh whole against the light, some apertures stay dark", NextKey(), cancellation);
    }

    // The demonstration's methods ask for the room's conditions and for no other preparation.
    private async Task ReadRoomAsync(BenchTask task, CancellationToken cancellation)
    {
        clock.Pass(task.Chance.Between(15, 40));
        var conditions = new RoomConditions(Temperature.FromCelsius(Tenths(task.Chance.Between(19.5, 23.5))), Tenths(task.Chance.Between(38, 57)));
        await preparing.ReadConditionsAsync(task.By.Actor, task.RunId, conditions, NextKey(), cancellation);
    }

    private async Task ScanAsync(BenchTask task, RunStep step, IReadOnlyList<SieveInPlay> sieves, CancellationToken cancellation)
    {
        IEnumerable<SieveInPlay> asked = step switch
        {
            _ when !task.Method.SievesScanned => [],
            { Weighing: WeighingKind.Empty } => [sieves[step.Position - 1]],
            { Kind: RunStepKind.Sieve, Position: 0, Round: 0 } => sieves,
            _ => [],
        };
        foreach (var sieve in asked)
        {
            clock.Pass(task.Chance.Between(3, 8));
            await scanning.ScanAsync(task.By.Actor, task.RunId, sieve.Serial, NextKey(), cancellation);
        }
    }

    private static decimal Tenths(double value) => decimal.Round((decimal)value, 1);

    private async Task SieveAsync(BenchTask task, RunStep step, bool weak, CancellationToken cancellation)
    {
        var position = step.Position;
        clock.Pass(task.Chance.Between(8, 20));
        await sieving.BeginAsync(task.By.Actor, task.RunId, position, NextKey(), cancellation);
        clock.Pass((step.Round == 0 ? task.Method.Seconds : task.Method.EndPoint!.IntervalSeconds) + task.Chance.Between(1, 9));
        await sieving.EndAsync(task.By.Actor, task.RunId, position, task.Method.PressureLowest is null ? null : Pressures(task.Chance, weak), NextKey(), cancellation);
    }

    private async Task EndAsync(BenchTask task, CancellationToken cancellation)
    {
        clock.Pass(task.Chance.Between(20, 60));
        switch (task.Mishap)
        {
            case Mishap.Interrupted:
                return;
            case Mishap.CoverOff:
                await start.AbandonAsync(task.By.Actor, task.RunId, "The cover came off while sieving and powder was lost", await VersionAsync(task, cancellation), cancellation);
                return;
            default:
                await submission.SubmitAsync(task.By.Actor, task.RunId, NextKey(), cancellation);
                return;
        }
    }

    private async Task<long> VersionAsync(BenchTask task, CancellationToken cancellation) => (await runs.FindAsync(task.By.Actor, task.RunId, cancellation))!.Run.Version;

    private static PressureSeen Pressures(Chance chance, bool weak)
    {
        var mean = chance.Between(2_900, 3_300);
        var lowest = weak ? chance.Between(1_300, 1_800) : mean - chance.Between(100, 350);
        return new PressureSeen(Rounded(lowest), Rounded(mean), Rounded(mean + chance.Between(100, 350)));
    }

    private static Pressure Rounded(double pascals) => Pressure.FromPascals((long)Math.Round(pascals / 50) * 50);

    private Balances.BalanceReading Read(BenchTask task, double grams) => room.Read(task.Balance, grams + (NoiseGrams * task.Chance.Normal()));

    private string NextKey() => string.Create(CultureInfo.InvariantCulture, $"demonstration-{++keys}");
}
