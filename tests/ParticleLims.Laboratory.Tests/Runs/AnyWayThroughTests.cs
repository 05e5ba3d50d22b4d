using CsCheck;
using ParticleLims.Analysis.Quantities;
using ParticleLims.Laboratory.Methods;
using ParticleLims.Laboratory.Products;
using ParticleLims.Laboratory.Runs;

namespace ParticleLims.Laboratory.Tests.Runs;

/// <summary>Whatever way somebody takes through a run by right steps, it ends, its steps never go back, and its masses balance.</summary>
public sealed class AnyWayThroughTests
{
    private static readonly Gen<WalkedRun> Walks = Gen.Select(Gen.Enum<SievingProcedure>(), Gen.Int[0, int.MaxValue], (procedure, seed) => new WalkedRun(procedure, seed));

    [Fact]
    public void Every_right_step_is_taken_and_leads_on_to_the_end() => Walks.Sample(
        walk =>
        {
            var steps = RunPlan.Steps(walk.Method).ToList();
            var reached = 0;
            for (var tries = 0; walk.Go(); tries++)
            {
                tries.ShouldBeLessThan(5_000, "the run comes to its end");
                var next = RunPlan.Next(walk.Run, walk.Method);
                var at = next is null ? steps.Count : steps.IndexOf(next);
                at.ShouldBeInRange(reached, reached + 1, "one step on, or the same once more");
                reached = at;
            }

            reached.ShouldBe(steps.Count);
            foreach (var step in steps.Where(step => step.Kind == RunStepKind.Weigh))
            {
                walk.Run.StandingWeighings.Count(weighing => RunStep.Of(weighing) == step).ShouldBe(1);
            }

            steps.Where(step => step.Kind == RunStepKind.Sieve).ShouldAllBe(step => RunPlan.SecondsSieved(walk.Run, step) == RunPlan.SecondsPlanned(walk.Method, step));
        },
        iter: 2_000);

    [Fact]
    public void Its_masses_balance_within_what_the_balance_allows() => Walks.Sample(
        walk =>
        {
            WalkToTheEnd(walk);
            var lost = Mass.FromMicrograms(Math.Abs(Unaccounted(walk).Micrograms));

            // Six standard uncertainties: three are exceeded now and then by two thousand walks.
            var tolerance = Plausibility.Tolerance(walk.Balance, walk.Run.StandingWeighings.Count());
            lost.ShouldBeLessThanOrEqualTo(tolerance + tolerance);
        },
        iter: 2_000);

    [Fact]
    public void Its_evaluation_tells_what_the_powder_truly_is() => Walks.Sample(
        walk =>
        {
            WalkToTheEnd(walk);
            var result = OpenedEvaluation.Evaluate(RunRequest.Of(walk.Run, walk.Method, new Product { Code = "P", Name = "Powder", Description = string.Empty }, walk.Balance, [])!);
            result.Cuts.Count.ShouldBe(walk.Method.Sieves.Count);
            foreach (var sieve in walk.Run.Sieves)
            {
                // Four weighings, each off by at most 1.5 mg, in at least 9.1 g.
                var passing = result.Cuts.Single(cut => cut.Aperture == sieve.Aperture).PassingPercent.ToDouble();
                (100 - passing).ShouldBe(walk.TrueRetainedPercent(sieve.Position), walk.Method.Procedure == SievingProcedure.SeparatePortions ? 0.07 : 0.4);
            }

            result.Fractions.Sum(fraction => fraction.Percent.ToDouble()).ShouldBe(100, 1e-9);
        },
        iter: 1_000);

    // In the walk of this seed the collector shows a milligram less at the end than at the beginning.
    [Fact]
    public void A_collector_that_shows_a_digit_less_than_before_has_collected_nothing() => Walks.Sample(
        walk =>
        {
            WalkToTheEnd(walk);
            var request = RunRequest.Of(walk.Run, walk.Method, new Product { Code = "P", Name = "Powder", Description = string.Empty }, walk.Balance, [])!;
            walk.Run.Find(WeighingKind.CollectorAfter, 0)!.Mass.ShouldBeLessThan(walk.Run.Find(WeighingKind.CollectorEmpty, 0)!.Mass);
            request.Collected.ShouldBe(Mass.Zero);
            OpenedEvaluation.Evaluate(request).RecoveryPercent.ShouldNotBeNull();
        },
        seed: "6LaaXWQ0teG2", iter: 1);

    private static void WalkToTheEnd(WalkedRun walk)
    {
        while (walk.Go())
        {
        }
    }

    /// <summary>What was put on less what was found again; where each sieve has its own portion, over all of them.</summary>
    private static Mass Unaccounted(WalkedRun walk)
    {
        Mass Of(WeighingKind kind, int position) => walk.Run.Find(kind, position)!.Mass;
        var positions = walk.Run.Sieves.Select(sieve => sieve.Position).Order().ToList();
        return walk.Method.Procedure switch
        {
            SievingProcedure.NestedStack => Sum(positions, position => Of(WeighingKind.Empty, position) - Of(WeighingKind.After, position))
                + (Of(WeighingKind.ContainerLoaded, 0) - Of(WeighingKind.ContainerEmpty, 0)) - (Of(WeighingKind.ReceiverAfter, 0) - Of(WeighingKind.ReceiverEmpty, 0)),
            SievingProcedure.CarriedResidue => Sum(positions.Skip(1), position =>
                (Of(WeighingKind.After, position - 1) - Of(WeighingKind.Empty, position - 1)) - (Of(WeighingKind.Loaded, position) - Of(WeighingKind.Empty, position))),
            _ => Sum(positions, position => Below(Of(WeighingKind.Loaded, position) - Of(WeighingKind.After, position)) + Below(Of(WeighingKind.After, position) - Of(WeighingKind.Empty, position))),
        };
    }

    private static Mass Below(Mass mass) => mass < Mass.Zero ? mass : Mass.Zero;

    private static Mass Sum(IEnumerable<int> positions, Func<int, Mass> mass) => positions.Aggregate(Mass.Zero, (sum, position) => sum + mass(position));
}
