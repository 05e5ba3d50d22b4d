using Microsoft.EntityFrameworkCore;
using ParticleLims.Laboratory.Methods;
using ParticleLims.Laboratory.Record;
using ParticleLims.Laboratory.Sieves;

namespace ParticleLims.Laboratory.Runs;

/// <summary>
/// Labels scanned at the bench. A sieve's label proves that the right sieve is in hand before it is weighed empty, and that a stack is built in the right order, from the receiver up;
/// at any other step a scan only says whether it is the right one.
/// </summary>
public sealed class RunScanning(WritePath writing)
{
    private static readonly DeedKind ScanDeed = new("runs.scan", "Label scanned", Permission.CarryOutRuns);

    /// <summary>Compares a scanned label with what the run's next step asks for; answers in words that it is right.</summary>
    /// <param name="actor">Who scans.</param>
    /// <param name="runId">The run.</param>
    /// <param name="code">What the scanner read: a sieve's serial number or a sample's number, in any case.</param>
    /// <param name="key">The idempotency key.</param>
    /// <param name="cancellation">Ends the deed before it is written.</param>
    /// <exception cref="RefusedException">Another sieve, another sample, a code that the laboratory does not know, a stack out of order.</exception>
    public Task<string> ScanAsync(Actor actor, Guid runId, string code, string key, CancellationToken cancellation) =>
        writing.CarryOutAsync(new Deed(ScanDeed, actor, key) { Asked = new { runId, code } }, async (scope, token) =>
        {
            ArgumentNullException.ThrowIfNull(code);
            var run = await scope.WholeRunAsync(runId);
            scope.About("Run", run.Id, run.Label);
            run.RequireGoingOn();
            var method = await scope.MethodOfAsync(run);
            await RunAuthorisation.TakeUpAsync(scope, run, method, token);
            await RetestDuties.RequireAnotherPersonAsync(scope, run, token);
            var read = code.Trim();
            if (Same(read, run.SampleCode))
            {
                return $"Sample {run.SampleCode} belongs to this run.";
            }

            await RefuseOtherSampleAsync(scope, run, read, token);
            var sieve = run.Sieves.Find(one => Same(one.SieveSerial, read)) ?? throw await NotOursAsync(scope, run, method, read, token);
            return RunPlan.Next(run, method) switch
            {
                { Kind: RunStepKind.Weigh, Weighing: WeighingKind.Empty } step when step.Position == sieve.Position => OnPan(scope, run, sieve),
                { Kind: RunStepKind.Weigh, Position: > 0 } step when step.Position != sieve.Position => throw Wrong(run, sieve, step.Position),
                { Kind: RunStepKind.Sieve, Position: 0 } => InStack(scope, run, sieve),
                { Position: > 0 } step when step.Position != sieve.Position => throw Wrong(run, sieve, step.Position),
                _ => $"The {sieve.Aperture} sieve {sieve.SieveSerial} belongs to this run.",
            };
        }, cancellation);

    private static string OnPan(DeedScope scope, Run run, RunSieve sieve)
    {
        Keep(scope, run, sieve, ScanPlace.Pan);
        return $"The right sieve: {sieve.Aperture}, {sieve.SieveSerial}. Put it on the pan.";
    }

    // From the receiver up each sieve is coarser than the one below.
    private static string InStack(DeedScope scope, Run run, RunSieve sieve)
    {
        var waiting = run.Sieves.Where(one => !run.IsScanned(one.Position, ScanPlace.Stack)).OrderBy(one => one.Position).ToList();
        if (!waiting.Contains(sieve))
        {
            return waiting is [var next, ..] ? $"{sieve.SieveSerial} stands in the stack already. Next: {Name(next)}." : "The stack is complete. Put the lid on.";
        }

        if (waiting[0] != sieve)
        {
            throw new RefusedException("stack-order", $"The {Name(sieve)} comes later. Now the {Name(waiting[0])} goes on: from the receiver up each sieve is coarser than the one below.", "sieves");
        }

        Keep(scope, run, sieve, ScanPlace.Stack);
        return waiting.Count == 1 ? $"The {Name(sieve)} is on. The stack is complete. Put the lid on." : $"The {Name(sieve)} is on. Next: {Name(waiting[1])}.";
    }

    private static void Keep(DeedScope scope, Run run, RunSieve sieve, ScanPlace place)
    {
        if (run.IsScanned(sieve.Position, place))
        {
            return;
        }

        scope.Data.Add(new SieveScan { Id = scope.NewId(), RunId = run.Id, Position = sieve.Position, Place = place, At = scope.Now, PersonId = scope.PersonId, PersonName = scope.By.Name, Terminal = scope.Terminal });
        scope.Data.Entry(run).State = EntityState.Modified;
    }

    private static RefusedException Wrong(Run run, RunSieve scanned, int position)
    {
        var asked = run.Sieves.Single(one => one.Position == position);
        return new RefusedException("sieve-other", $"This is the {Name(scanned)}. The step asks for the {Name(asked)}. Put the other one away and scan again.", "sieves");
    }

    private static async Task RefuseOtherSampleAsync(DeedScope scope, Run run, string code, CancellationToken cancellation)
    {
        var normal = code.ToUpperInvariant();
        if (await scope.Data.Runs.Where(other => other.SampleCode == code || other.SampleCode == normal).Select(other => other.SampleCode).FirstOrDefaultAsync(cancellation) is { } other)
        {
            throw new RefusedException("sample-other", $"This is sample {other}. The run is of sample {run.SampleCode}. Put the other one away.", "sample");
        }
    }

    private static async Task<RefusedException> NotOursAsync(DeedScope scope, Run run, MethodVersion method, string code, CancellationToken cancellation)
    {
        var normal = code.ToUpperInvariant();
        var known = await scope.Data.TestSieves.FirstOrDefaultAsync(sieve => sieve.Serial == code || sieve.Serial == normal, cancellation);
        var asked = RunPlan.Next(run, method) is { Position: > 0 } step ? run.Sieves.Single(one => one.Position == step.Position) : null;
        var wanted = asked is null ? string.Empty : $" The step asks for the {Name(asked)}.";
        return known is null
            ? new RefusedException("code-unknown", $"“{Shown(code)}” is neither a sieve nor a sample of this laboratory.{wanted}", "code")
            : new RefusedException("sieve-other", $"The {known.Label} does not belong to this run.{wanted} Put it away and take the right one.", "sieves");
    }

    private static string Shown(string code) => code.Length > 40 ? code[..40] + "…" : code;

    private static string Name(RunSieve sieve) => $"{sieve.Aperture} sieve {sieve.SieveSerial}";

    private static bool Same(string left, string right) => string.Equals(left, right, StringComparison.OrdinalIgnoreCase);
}
