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
    public string WhatChanged { get; init; } = "First version";

    /// <summary>Refuses, in words, what no laboratory could follow.</summary>
    /// <exception cref="RefusedException">Says which member and why.</exception>
    public void Check()
    {
        Require(Apertures.Count is >= 1 and <= 30, "apertures", "A method names 1 to 30 sieves.");
        var twice = Apertures.GroupBy(aperture => aperture).FirstOrDefault(group => group.Count() > 1);
        Require(twice is null, "apertures", $"The aperture {twice?.Key} stands twice.");
        Require(PortionLeast > Mass.Zero && PortionMost >= PortionLeast, "portionLeast", "The test portion has a least and a most, both above 0 g, the most not below the least.");
        Require(Seconds is >= 1 and <= 36_000, "seconds", "The sieving time lies between 1 s and 10 hours.");
        Require(Replicates is >= 1 and <= 10, "replicates", "A method asks for 1 to 10 replicates.");
        Require(Percentiles.Count is >= 1 and <= 20 && Percentiles.All(one => one is > 0m and < 100m), "percentiles", "Percentiles lie between 0 and 100 %, both excluded.");
        Require(PressureLowest is null == PressureHighest is null && !(PressureLowest?.Pascals > PressureHighest?.Pascals), "pressureLowest", "The pressure band has a lowest and a highest, in this order, or neither.");
        Require(Procedure != SievingProcedure.NestedStack || PressureLowest is null, "pressureLowest", "A nested stack has no differential pressure.");
        Require(LeastRecoveryPercent is null or (> 0m and <= 100m), "leastRecoveryPercent", "The least recovery lies between 0 and 100 %.");
        Require(RepeatabilityLimitPercent is null or (> 0m and <= 100m), "repeatabilityLimitPercent", "Replicates may differ by more than 0 and at most 100 percentage points.");
        Require(PortionUncertaintyPercent is null or (>= 0m and <= 50m), "portionUncertaintyPercent", "The uncertainty from taking the test portion lies between 0 and 50 %.");
        Require(MostTransferLossPercent is null or (>= 0m and <= 100m), "mostTransferLossPercent", "The most transfer loss lies between 0 and 100 %.");
    }

    internal MethodVersion ToVersion(DeedScope scope, Guid methodId, int number)
    {
        Check();
        var version = new MethodVersion
        {
            Id = scope.NewId(), DocumentId = methodId, Number = number, AuthorId = scope.PersonId, AuthorName = scope.By.Name, WrittenAt = scope.Now, WhatChanged = WhatChanged.Trim(),
            Procedure = Procedure, PortionLeast = PortionLeast, PortionMost = PortionMost, Seconds = Seconds, PressureLowest = PressureLowest, PressureHighest = PressureHighest,
            Replicates = Replicates, Reading = Reading, LeastRecoveryPercent = LeastRecoveryPercent, MostTransferLossPercent = MostTransferLossPercent,
            RepeatabilityLimitPercent = RepeatabilityLimitPercent, PortionUncertaintyPercent = PortionUncertaintyPercent,
            Percentiles = string.Join(',', Percentiles.Distinct().Order().Select(one => one.ToString("0.######", CultureInfo.InvariantCulture))),
        };
        version.Sieves.AddRange(Apertures.Order().Select((aperture, index) => new MethodSieve { MethodVersionId = version.Id, Position = index + 1, Aperture = aperture }));
        return version;
    }

    private static void Require(bool holds, string member, string words)
    {
        if (!holds)
        {
            throw new RefusedException("method", words, member);
        }
    }
}
