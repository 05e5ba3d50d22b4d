using ParticleLims.Analysis.Quantities;
using ParticleLims.Laboratory.Investigations;
using ParticleLims.Laboratory.Lots;
using ParticleLims.Laboratory.Runs;
using ParticleLims.Laboratory.Tests.Record;

namespace ParticleLims.Laboratory.Tests.Walks;

/// <summary>What the bench does with a run.</summary>
internal static class RunDeeds
{
    private static readonly PressureSeen Usual = new(Pressure.FromPascals(3100), Pressure.FromPascals(3300), Pressure.FromPascals(3600));

    public static IEnumerable<WalkDeed> All =>
    [
        new("starts run", Who.Bench, SubjectKind.Run, "RunStart.StartAsync/7")
        {
            Weight = 30,
            Against = at => [.. When(at.Run.State != RunState.Planned, "run-state"), .. When(at.Run.Sample.Lot.IsDecided, "lot-closed"), .. When(InPlaceOfUnexplained(at), "given-up-unexplained"), .. RetestByTheSame(at), .. When(at.Model.Runs.Exists(run => run.State == RunState.InProgress && run != at.Run), "sieve-in-use")],
            Changes = at => Worked(at).State = RunState.InProgress,
            Act = (hand, at) => hand.Get<RunStart>().StartAsync(hand.Of(at), hand.Run(at).Id, new RunEquipment(hand.Small.BalanceId, hand.Method.SieveIds), hand.Run(at).Version, null, null, default),
        },
        new("does the next step of run", Who.Bench, SubjectKind.Run, "RunWeighing.TakeAsync/6", "RunSieving.BeginAsync/5", "RunSieving.EndAsync/6")
        {
            Weight = 80, Variants = 2,
            Against = at => [.. When(!at.Run.GoesOn, "run-state"), .. When(at.Run.Steps == ModelLaboratory.StepsOfARun, "step-done"), .. RetestByTheSame(at)],
            Changes = at =>
            {
                var run = Worked(at);
                run.Steps++;
                run.Coarse = at.Variant == 1;
            },
            Act = StepAsync,
        },
        new("weighs the residue again in run", Who.Bench, SubjectKind.Run, "RunWeighing.TakeAgainAsync/7")
        {
            Weight = 3, Variants = 2, Exists = at => at.Run.Steps == ModelLaboratory.StepsOfARun,
            Against = at => [.. When(!at.Run.GoesOn, "run-state"), .. RetestByTheSame(at)],
            Changes = at => Worked(at).Coarse = at.Variant == 1,
            Act = async (hand, at) => await hand.Get<RunWeighing>().TakeAgainAsync(
                hand.Of(at), hand.Run(at).Id, await hand.ResidueAsync(at), hand.Reading(Residue(at)), "The pan was not clean", Hand.NewKey(), default),
        },
        new("submits run", Who.Bench, SubjectKind.Run, "RunSubmission.SubmitAsync/4")
        {
            Weight = 40,
            Against = at => [.. When(!at.Run.GoesOn, "run-state"), .. When(at.Run.Steps < ModelLaboratory.StepsOfARun, "step-missing"), .. RetestByTheSame(at)],
            Changes = Submit,
            Act = (hand, at) => hand.Get<RunSubmission>().SubmitAsync(hand.Of(at), hand.Run(at).Id, Hand.NewKey(), default),
        },
        new("abandons run", Who.Bench, SubjectKind.Run, "RunStart.AbandonAsync/5")
        {
            Weight = 4,
            Against = at => When(at.Run.State is not (RunState.Planned or RunState.InProgress or RunState.Returned), "run-state"),
            Changes = at =>
            {
                var run = Worked(at);
                run.State = RunState.Abandoned;
                if (run.Steps == ModelLaboratory.StepsOfARun && run.Coarse && !ReviewDeeds.CauseFound(at))
                {
                    Investigate(at);
                }

                if (!run.Sample.Lot.IsDecided)
                {
                    at.Model.Plan(run.Sample, run, run.Retest);
                }
            },
            Act = (hand, at) => hand.Get<RunStart>().AbandonAsync(hand.Of(at), hand.Run(at).Id, "The test portion was spilled", hand.Run(at).Version, default),
        },
    ];

    public static IEnumerable<string> When(bool forbidden, string code) => forbidden ? [code] : [];

    private static ModelRun Worked(Moment at)
    {
        at.Run.Workers.Add(at.Person);
        return at.Run;
    }

    // A retest is made by somebody else than the run that is investigated, from its start to its submission, unless the plan says why not.
    private static IEnumerable<string> RetestByTheSame(Moment at) => When(
        at.Run.Retest is { BySamePerson: false } && at.Model.Runs.Exists(run => run.Sample == at.Run.Sample && run.Retest is null && run.Workers.Contains(at.Person)), "retest-other-person");

    // A value does not go away with the run that is given up: what was planned in its place waits until a cause is found.
    private static bool InPlaceOfUnexplained(Moment at) => at.Run is { Replaces: not null, Retest: null }
        && at.Model.CasesOf(at.Run.Sample).Any(one => one.Run.State == RunState.Abandoned && one.Conclusion != InvestigationConclusion.LaboratoryCause);

    private static void Submit(Moment at)
    {
        var run = Worked(at);
        (run.State, run.Out, run.WasSubmitted) = (RunState.Submitted, run.Coarse, true);
        if (run.Retest is null && run.Out)
        {
            Investigate(at);
        }
    }

    private static void Investigate(Moment at)
    {
        var (run, lot) = (at.Run, at.Run.Sample.Lot);
        if (at.Model.IsInvestigated(run.Sample))
        {
            return;
        }

        if (lot.State is LotState.AwaitingResults or LotState.AwaitingDisposition)
        {
            lot.State = LotState.OnHold;
        }

        at.Model.Cases.Add(new ModelCase { Number = at.Model.Cases.Count + 1, Run = run });
    }

    private static decimal Residue(Moment at) => TestBench.TareGrams(1) + (at.Variant == 1 ? 1.6m : 0.6m);

    private static async Task StepAsync(Hand hand, Moment at)
    {
        var (run, actor) = (hand.Run(at).Id, hand.Of(at));
        switch (at.Run.Steps)
        {
            case 0:
                await WeighAsync(WeighingKind.Empty, TestBench.TareGrams(1));
                break;
            case 1:
                await WeighAsync(WeighingKind.Loaded, TestBench.TareGrams(1) + 20m);
                break;
            case 2:
                await hand.Get<RunSieving>().BeginAsync(actor, run, 1, Hand.NewKey(), default);
                hand.Pass(TimeSpan.FromSeconds(hand.Method.Draft.Seconds));
                await hand.Get<RunSieving>().EndAsync(actor, run, 1, Usual, Hand.NewKey(), default);
                break;
            default:
                await WeighAsync(WeighingKind.After, Residue(at));
                break;
        }

        Task WeighAsync(WeighingKind kind, decimal grams) => hand.Get<RunWeighing>().TakeAsync(actor, run, RunStep.Weigh(kind, 1), hand.Reading(grams), Hand.NewKey(), default);
    }
}
