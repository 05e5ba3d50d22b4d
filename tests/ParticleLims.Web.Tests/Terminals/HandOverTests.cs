using ParticleLims.Laboratory.Record;
using ParticleLims.Laboratory.Runs;
using ParticleLims.TestLaboratory.SmallLaboratories;
using ParticleLims.Web.Tests.Shell;
using Shouldly;
using Xunit;

namespace ParticleLims.Web.Tests.Terminals;

/// <summary>
/// A thousand hand-overs between three people at two terminals over one run, signed on over HTTP as a browser does. The screens of those
/// who were there before stay open and try to go on. The numbers are of a generator with a fixed seed.
/// </summary>
public sealed class HandOverTests
{
    private const int HandOvers = 1_000;

    [Fact]
    public async Task In_a_thousand_hand_overs_no_weighing_is_credited_to_the_wrong_person()
    {
        await using var bench = await BenchWeb.StartAsync();
        var shift = await Shift.BeginAsync(bench);
        for (var number = 0; number < HandOvers; number++)
        {
            await shift.HandOverAsync(number);
        }

        var weighings = (await bench.Small.Bench().ViewAsync(shift.RunId)).Run.Weighings.OrderBy(weighing => weighing.At).ToList();
        weighings.Count.ShouldBe(HandOvers);
        weighings.Select(weighing => (weighing.PersonName, weighing.Terminal)).ShouldBe(shift.Taken);
        shift.Refused.ShouldBeGreaterThan(HandOvers / 2, "those who were there before tried too");
        shift.Taken.Distinct().Count().ShouldBe(6, "everybody weighed at both terminals");
        await shift.EndAsync();
    }

    private sealed class Shift(BenchWeb bench, Visitor[] terminals, Guid run)
    {
        private static readonly string[] Names = ["Bench 1", "Bench 2"];
        private readonly Random chance = new(20261125);
        private readonly OpenScreen?[] here = new OpenScreen?[2];
        private readonly List<OpenScreen> left = [];

        public Guid RunId => run;

        public List<(string Person, string Terminal)> Taken { get; } = [];

        public int Refused { get; private set; }

        private TestPerson[] People => [bench.Small.People.Technician, bench.Small.People.SecondTechnician, bench.Small.People.Reviewer];

        public static async Task<Shift> BeginAsync(BenchWeb bench)
        {
            var lot = await bench.Small.BookInAsync(bench.Small.Calcite);
            await bench.Small.Bench().StartAsync(lot.RunId, bench.Small.Calcite);
            return new Shift(bench, [await bench.EnrolledAsync(Names[0]), await bench.EnrolledAsync(Names[1])], lot.RunId);
        }

        // Somebody signs on at one of the terminals: over a lock, over a hand-over, or simply over whoever is there.
        public async Task HandOverAsync(int number)
        {
            var at = chance.Next(2);
            var person = People[chance.Next(3)];
            await LeaveAsync(at);
            await BenchWeb.SignOnAsync(terminals[at], person, $"/bench/{run}");
            if (here[at] is { } before)
            {
                left.Add(before);
            }

            here[at] = await OpenScreen.OpenAsync(bench.Web, terminals[at]);
            await TryOldScreenAsync();
            await WeighAsync(here[at]!.Actor, number);
            Taken.Add((person.FullName, Names[at]));
            await TryOldScreenAsync();
        }

        public async Task EndAsync()
        {
            foreach (var screen in left.Concat(here.OfType<OpenScreen>()))
            {
                await screen.DisposeAsync();
            }

            foreach (var terminal in terminals)
            {
                terminal.Dispose();
            }
        }

        private async Task LeaveAsync(int at)
        {
            var way = chance.Next(3);
            if (here[at] is not null && way > 0)
            {
                using var answer = await terminals[at].PostAsync("/account", way == 1 ? "/lock" : "/hand-over", ("to", $"/bench/{run}"));
            }
        }

        // A page that was opened earlier keeps the actor that it asked for then; a new page on the same screen asks again.
        private async Task TryOldScreenAsync()
        {
            if (left.Count == 0)
            {
                return;
            }

            var old = left[chance.Next(Math.Max(0, left.Count - 4), left.Count)];
            await Should.ThrowAsync<NotPermittedException>(() => WeighAsync(chance.Next(2) == 0 ? old.Actor : new Actor(old.Actor.PersonId, "T-0", old.Actor.SessionId), -1));
            (await old.ActorNowAsync()).PersonId.ShouldBeNull();
            Refused++;
        }

        private async Task WeighAsync(Actor actor, int number)
        {
            var table = new TestBench(bench.Small, actor);
            var grams = TestBench.TareGrams(1) + (0.001m * (Math.Max(0, number) % 3));
            if (Taken.Count == 0 && number >= 0)
            {
                await table.WeighAsync(run, RunStep.Weigh(WeighingKind.Empty, 1), grams);
                return;
            }

            var mistaken = (await bench.Small.Bench().ViewAsync(run)).Run.Find(WeighingKind.Empty, 1)!;
            await bench.Small.Get<RunWeighing>().TakeAgainAsync(actor, run, mistaken.Id, table.Reading(grams), "Handed over in between", Guid.NewGuid().ToString("N"), default);
        }
    }
}
