using ParticleLims.Analysis.Quantities;
using ParticleLims.Analysis.Weighings;
using ParticleLims.Laboratory.Balances;
using ParticleLims.Laboratory.Methods;
using ParticleLims.Laboratory.Runs;

namespace ParticleLims.Laboratory.Tests.Runs;

/// <summary>A run without a database, walked through by somebody who does everything right but in parts, twice, and with a balance that scatters by a milligram.</summary>
internal sealed class WalkedRun
{
    private static readonly Guid Nobody = Guid.CreateVersion7();
    private readonly Random random;
    private readonly long[] tares;

    /// <summary>What lies above each aperture, the finest first, in µg of the portion on that sieve.</summary>
    private readonly long[] residues;
    private readonly long[] portions;

    public WalkedRun(SievingProcedure procedure, int seed)
    {
        random = new Random(seed);
        var sieves = random.Next(1, 9);
        Method = new MethodVersion
        {
            AuthorName = "Lena Hollow", WhatChanged = "First version", Percentiles = "10,50,90", Procedure = procedure, Seconds = random.Next(1, 601), EndPoint = random.Next(2) == 0 ? null : EndPointPlan.By(EndPointRule.Pharmacopoeia, 60, 3),
            CollectorWeighed = procedure != SievingProcedure.NestedStack && random.Next(2) == 0, PortionLeast = Mass.FromGrams(9m), PortionMost = Mass.FromGrams(11m),
        };
        Run = new Run { Id = Nobody, Number = "R-26-00001", SampleCode = "S-26-00001", LotNumber = "L-1", ProductCode = "GC-45" };
        for (var position = 1; position <= sieves; position++)
        {
            var aperture = Aperture.FromMicrometres(20m * position);
            Method.Sieves.Add(new MethodSieve { Position = position, Aperture = aperture });
            Run.Sieves.Add(new RunSieve { RunId = Run.Id, Position = position, Aperture = aperture, SieveSerial = "TS", FrameMillimetres = 200, FitnessThen = "in service" });
        }

        tares = [.. Enumerable.Range(0, sieves + 1).Select(_ => Micrograms(150, 400))];
        var portion = Micrograms(9.1, 10.9);
        portions = [.. Enumerable.Range(0, sieves + 1).Select(_ => procedure == SievingProcedure.SeparatePortions ? Micrograms(9.1, 10.9) : portion)];
        var shares = Enumerable.Range(0, sieves).Select(_ => random.NextDouble()).OrderDescending().ToList();
        residues = [.. Enumerable.Range(0, sieves).Select(sieve => (long)(portions[sieve + 1] * shares[sieve]))];
    }

    public Run Run { get; }

    public MethodVersion Method { get; }

    public Balance Balance { get; } = new()
    {
        Serial = "B-1", Name = "Bench 1", Place = "Bench 1", Host = "127.0.0.1", ReadingFormat = "Plain line", Readability = Mass.FromGrams(0.001m), Repeatability = Mass.FromGrams(0.001m), Capacity = Mass.FromGrams(620m),
    };

    /// <summary>Percent of the portion that lies above a sieve, as it truly is.</summary>
    public double TrueRetainedPercent(int position) => 100.0 * residues[position - 1] / portions[position];

    /// <summary>Does something right: the next step, a part of it, or a weighing again. Answers false when nothing is left.</summary>
    public bool Go()
    {
        if (Run.Weighings.Count > 0 && random.Next(4) == 0)
        {
            WeighSomethingAgain();
        }

        if (RunPlan.Next(Run, Method) is not { } step)
        {
            return false;
        }

        if (step.Kind == RunStepKind.Sieve)
        {
            var left = RunPlan.SecondsPlanned(Method, step) - RunPlan.SecondsSieved(Run, step);
            Run.Intervals.Add(new SievingInterval { Id = Guid.CreateVersion7(), Position = step.Position, Round = step.Round, PersonName = "Tom Reed", EndedAt = DateTimeOffset.UnixEpoch, Seconds = random.Next(0, left + 1) });
        }
        else
        {
            Weigh(step, null);
        }

        return true;
    }

    private void WeighSomethingAgain()
    {
        var standing = Run.StandingWeighings.Where(weighing => RunPlan.MayWeighAgain(Run, Method, weighing)).ToList();
        if (standing.Count > 0)
        {
            var mistaken = standing[random.Next(standing.Count)];
            Weigh(RunStep.Of(mistaken), mistaken.Id);
        }
    }

    private void Weigh(RunStep step, Guid? supersedes)
    {
        // The balance rounds to a milligram and is off by one at most: what its repeatability of a milligram allows on most days.
        var mass = Mass.FromMicrograms(((OnThePan(step) + 500) / 1000 * 1000) + (1000 * random.Next(-1, 2)));
        Plausibility.Require(Run, Method, step, mass, Balance, usualTare: null);
        Run.Weighings.Add(new Weighing { Id = Guid.CreateVersion7(), Kind = step.Weighing!.Value, Position = step.Position, Round = step.Round, Mass = mass, RawLine = "ST", PersonName = "Tom Reed", Terminal = "T1", SupersedesId = supersedes });
    }

    private long OnThePan(RunStep step)
    {
        var (position, nested) = (step.Position, Method.Procedure == SievingProcedure.NestedStack);
        long Above(int sieve) => sieve <= residues.Length ? residues[sieve - 1] : 0;
        return step.Weighing switch
        {
            WeighingKind.Empty => tares[position],
            WeighingKind.Loaded => tares[position] + (Method.Procedure == SievingProcedure.CarriedResidue && position > 1 ? Above(position - 1) : portions[position]),
            WeighingKind.After => tares[position] + Above(position) - (nested ? Above(position + 1) : 0),
            WeighingKind.ContainerEmpty or WeighingKind.ReceiverEmpty or WeighingKind.CollectorEmpty => tares[0],
            WeighingKind.CollectorAfter => tares[0] + Run.Sieves.Sum(sieve => (Run.Find(WeighingKind.Loaded, sieve.Position)!.Mass - Run.Find(WeighingKind.After, sieve.Position)!.Mass).Micrograms),
            WeighingKind.ContainerLoaded => tares[0] + portions[0],
            WeighingKind.ReceiverAfter => tares[0] + portions[0] - Above(1),
            _ => throw new ArgumentOutOfRangeException(nameof(step), step, "Not a weighing."),
        };
    }

    private long Micrograms(double from, double to) => (long)(1_000_000 * (from + (random.NextDouble() * (to - from))));
}
