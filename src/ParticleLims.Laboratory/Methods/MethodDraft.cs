using System.Globalization;
using ParticleLims.Analysis.Quantities;
using ParticleLims.Laboratory.Record;

namespace ParticleLims.Laboratory.Methods;

/// <summary>What a version of a method says, as its author writes it.</summary>
public sealed record MethodDraft
{
    public required SievingProcedure Procedure { get; init; }

    /// <summary>Apertures in any order.</summary>
    public required IReadOnlyList<Aperture> Apertures { get; init; }
    public required Mass PortionLeast { get; init; }
    public required Mass PortionMost { get; init; }
    public required int Seconds { get; init; }
    public Pressure? PressureLowest { get; init; }
    public Pressure? PressureHighest { get; init; }
    public int Replicates { get; init; } = 1;
    public IReadOnlyList<decimal> Percentiles { get; init; } = [10m, 50m, 90m];
    public CurveReading Reading { get; init; } = CurveReading.LogLinear;
    public decimal? LeastRecoveryPercent { get; init; }
    public decimal? MostTransferLossPercent { get; init; }
    public decimal? RepeatabilityLimitPercent { get; init; }
    public decimal? PortionUncertaintyPercent { get; init; }

    /// <summary>When sieving has gone on long enough; null for the fixed time alone.</summary>
    public EndPointPlan? EndPoint { get; init; }

    /// <summary>Air jet: whether the fines are caught in a collector that is weighed before and after.</summary>
    public bool CollectorWeighed { get; init; }

    /// <summary>Whether each sieve's label is scanned before it is weighed, and again when a stack is built.</summary>
    public bool SievesScanned { get; init; }

    /// <summary>Whether only people authorised for the method carry out its runs.</summary>
    public bool AuthorisationNeeded { get; init; }

    /// <summary>Whether effective apertures take the place of nominal ones.</summary>
    public bool EffectiveApertures { get; init; }

    /// <summary>What happens when the balance has not passed its check on the day.</summary>
    public UncheckedBalance UncheckedBalance { get; init; }

    /// <summary>What happens when a residue lies under the minimum weight of the balance.</summary>
    public SmallResidue SmallResidue { get; init; }

    /// <summary>What is done before the first sieve.</summary>
    public PreparationPlan Preparation { get; init; } = PreparationPlan.None;
    public string WhatChanged { get; init; } = "First version";

    /// <summary>Refuses, in words, what no laboratory could follow.</summary>
    /// <exception cref="RefusedException">Says which member and why.</exception>
    public void Check()
    {
        MethodRefusal.Unless(Apertures.Count is >= 1 and <= 30, "apertures", "A method names 1 to 30 sieves.");
        var twice = Apertures.GroupBy(aperture => aperture).FirstOrDefault(group => group.Count() > 1);
        MethodRefusal.Unless(twice is null, "apertures", $"The aperture {twice?.Key} stands twice.");
        MethodRefusal.Unless(PortionLeast > Mass.Zero && PortionMost >= PortionLeast, "portionLeast", "The test portion has a least and a most, both above 0 g, the most not below the least.");
        MethodRefusal.Unless(Seconds is >= 1 and <= 36_000, "seconds", "The sieving time lies between 1 s and 10 hours.");
        MethodRefusal.Unless(Replicates is >= 1 and <= 10, "replicates", "A method asks for 1 to 10 replicates.");
        MethodRefusal.Unless(Percentiles.Count is >= 1 and <= 20 && Percentiles.All(one => one is > 0m and < 100m), "percentiles", "Percentiles lie between 0 and 100 %, both excluded.");
        MethodRefusal.Unless(PressureLowest is null == PressureHighest is null && !(PressureLowest?.Pascals > PressureHighest?.Pascals), "pressureLowest", "The pressure band has a lowest and a highest, in this order, or neither.");
        MethodRefusal.Unless(Procedure != SievingProcedure.NestedStack || PressureLowest is null, "pressureLowest", "A nested stack has no differential pressure.");
        MethodRefusal.Unless(LeastRecoveryPercent is null or (> 0m and <= 100m), "leastRecoveryPercent", "The least recovery lies between 0 and 100 %.");
        MethodRefusal.Unless(RepeatabilityLimitPercent is null or (> 0m and <= 100m), "repeatabilityLimitPercent", "Replicates may differ by more than 0 and at most 100 percentage points.");
        MethodRefusal.Unless(PortionUncertaintyPercent is null or (>= 0m and <= 50m), "portionUncertaintyPercent", "The uncertainty from taking the test portion lies between 0 and 50 %.");
        MethodRefusal.Unless(MostTransferLossPercent is null or (>= 0m and <= 100m), "mostTransferLossPercent", "The most transfer loss lies between 0 and 100 %.");
        MethodRefusal.Unless(!CollectorWeighed || Procedure != SievingProcedure.NestedStack, "collector", "A nested stack catches its fines in the receiver; only an air jet has a collector.");
        MethodRefusal.Unless(Enum.IsDefined(UncheckedBalance) && Enum.IsDefined(SmallResidue), "balanceRules", "There is no such rule for the balance.");
        EndPoint?.Check();
        Preparation.Check();
    }

    internal MethodVersion ToVersion(DeedScope scope, Guid methodId, int number) => ToVersion(scope.NewId(), methodId, number, (scope.PersonId, scope.By.Name, scope.Now));

    /// <summary>The version that these words make, written by somebody.</summary>
    internal MethodVersion ToVersion(Guid id, Guid methodId, int number, (Guid Id, string Name, DateTimeOffset At) author)
    {
        Check();
        var version = new MethodVersion
        {
            Id = id, DocumentId = methodId, Number = number, AuthorId = author.Id, AuthorName = author.Name, WrittenAt = author.At, WhatChanged = WhatChanged.Trim(),
            Procedure = Procedure, PortionLeast = PortionLeast, PortionMost = PortionMost, Seconds = Seconds, PressureLowest = PressureLowest, PressureHighest = PressureHighest,
            Replicates = Replicates, Reading = Reading, LeastRecoveryPercent = LeastRecoveryPercent, MostTransferLossPercent = MostTransferLossPercent,
            RepeatabilityLimitPercent = RepeatabilityLimitPercent, PortionUncertaintyPercent = PortionUncertaintyPercent,
            EndPoint = EndPoint, CollectorWeighed = CollectorWeighed, SievesScanned = SievesScanned, AuthorisationNeeded = AuthorisationNeeded, EffectiveApertures = EffectiveApertures, UncheckedBalance = UncheckedBalance, SmallResidue = SmallResidue, Preparation = Preparation with { FlowAid = Preparation.FlowAid?.Trim() },
            Percentiles = string.Join(',', Percentiles.Distinct().Order().Select(one => one.ToString("0.######", CultureInfo.InvariantCulture))),
        };
        version.Sieves.AddRange(Apertures.Order().Select((aperture, index) => new MethodSieve { MethodVersionId = version.Id, Position = index + 1, Aperture = aperture }));
        return version;
    }
}
