using ParticleLims.Analysis.Quantities;
using ParticleLims.Laboratory.Methods;
using ParticleLims.Web.Controls;

namespace ParticleLims.Web.Methods;

/// <summary>A method as it stands in the editor, in the units that people type.</summary>
internal sealed class MethodSheet
{
    public static readonly SievingProcedure[] Procedures = Enum.GetValues<SievingProcedure>();
    public static readonly UncheckedBalance[] UncheckedRules = Enum.GetValues<UncheckedBalance>();
    public static readonly SmallResidue[] SmallRules = Enum.GetValues<SmallResidue>();
    public static readonly CurveReading[] Readings = Enum.GetValues<CurveReading>();

    public string Code { get; set; } = string.Empty;
    public string Title { get; set; } = string.Empty;
    public int Procedure { get; set; }
    public string Apertures { get; set; } = string.Empty;
    public decimal? PortionLeast { get; set; }
    public decimal? PortionMost { get; set; }
    public decimal? Seconds { get; set; }
    public decimal? PressureLowest { get; set; }
    public decimal? PressureHighest { get; set; }
    public decimal? Replicates { get; set; } = 1;
    public string Percentiles { get; set; } = "10 50 90";
    public int Reading { get; set; } = Array.IndexOf(Readings, CurveReading.LogLinear);
    public decimal? LeastRecovery { get; set; }
    public decimal? MostTransferLoss { get; set; }
    public decimal? Repeatability { get; set; }
    public decimal? PortionUncertainty { get; set; }
    public EndPointSheet EndPoint { get; private init; } = new();
    public bool CollectorWeighed { get; set; }
    public bool SievesScanned { get; set; }
    public bool AuthorisationNeeded { get; set; }
    public bool EffectiveApertures { get; set; }
    public int UncheckedBalance { get; set; }
    public int SmallResidue { get; set; }
    public PreparationSheet Preparation { get; private init; } = new();
    public string WhatChanged { get; set; } = string.Empty;

    public bool IsStack => Procedures[Procedure] == SievingProcedure.NestedStack;
    public bool IsCarried => Procedures[Procedure] == SievingProcedure.CarriedResidue;

    /// <summary>The apertures with their numbers of ASTM E11, as far as they can be read.</summary>
    public string AperturesInWords => NumberReading.ReadMany(Apertures, 0.001m, 125_000m, 3) is { Refusal: null, Values: { Count: > 0 } values }
        ? string.Join(", ", values.Order().Select(value => SieveWords.Aperture(Aperture.FromMicrometres(value)))) + "."
        : "Parted by spaces: 20 32 45 63.";

    public static string? WrongApertures(string typed)
    {
        var (values, refusal) = NumberReading.ReadMany(typed, 0.001m, 125_000m, 3);
        var twice = values.GroupBy(value => value).FirstOrDefault(group => group.Count() > 1);
        return refusal ?? (twice is null ? null : $"The aperture {NumberReading.Write(twice.Key)} µm stands twice.");
    }

    public static string? WrongPercentiles(string typed) => 
        NumberReading.ReadMany(typed) is { Refusal: null } read
            ? read.Values.Any(one => one is <= 0m or >= 100m) ? "Percentiles lie between 0 and 100 %, both excluded." : null
            : NumberReading.ReadMany(typed).Refusal;

    /// <summary>A version as the editor begins with it.</summary>
    public static MethodSheet Of(MethodVersion version) => new()
    {
        Procedure = Array.IndexOf(Procedures, version.Procedure),
        Apertures = string.Join(' ', version.Sieves.OrderBy(sieve => sieve.Position).Select(sieve => NumberReading.Write(sieve.Aperture.Micrometres))),
        PortionLeast = version.PortionLeast.Grams, PortionMost = version.PortionMost.Grams, Seconds = version.Seconds,
        PressureLowest = version.PressureLowest?.Kilopascals, PressureHighest = version.PressureHighest?.Kilopascals, Replicates = version.Replicates,
        Percentiles = string.Join(' ', version.PercentileList.Select(one => NumberReading.Write(one))), Reading = Array.IndexOf(Readings, version.Reading),
        LeastRecovery = version.LeastRecoveryPercent, MostTransferLoss = version.MostTransferLossPercent, Repeatability = version.RepeatabilityLimitPercent,
        PortionUncertainty = version.PortionUncertaintyPercent, EndPoint = EndPointSheet.Of(version.EndPoint), CollectorWeighed = version.CollectorWeighed, SievesScanned = version.SievesScanned, AuthorisationNeeded = version.AuthorisationNeeded, EffectiveApertures = version.EffectiveApertures,
        UncheckedBalance = Array.IndexOf(UncheckedRules, version.UncheckedBalance), SmallResidue = Array.IndexOf(SmallRules, version.SmallResidue),
        Preparation = PreparationSheet.Of(version.Preparation),
    };

    /// <summary>What the author hands to the laboratory; fields that the procedure does not know are left out.</summary>
    public MethodDraft Draft() => new()
    {
        Procedure = Procedures[Procedure],
        Apertures = [.. NumberReading.ReadMany(Apertures, 0.001m, 125_000m, 3).Values.Select(Aperture.FromMicrometres)],
        PortionLeast = Mass.FromGrams(PortionLeast!.Value), PortionMost = Mass.FromGrams(PortionMost!.Value), Seconds = (int)Seconds!.Value,
        PressureLowest = IsStack ? null : InPascals(PressureLowest), PressureHighest = IsStack ? null : InPascals(PressureHighest),
        Replicates = (int)Replicates!.Value, Percentiles = NumberReading.ReadMany(Percentiles).Values, Reading = Readings[Reading],
        LeastRecoveryPercent = IsStack ? LeastRecovery : null, MostTransferLossPercent = IsCarried ? MostTransferLoss : null, RepeatabilityLimitPercent = Repeatability,
        PortionUncertaintyPercent = PortionUncertainty, EndPoint = EndPoint.Plan(), CollectorWeighed = !IsStack && CollectorWeighed, SievesScanned = SievesScanned, AuthorisationNeeded = AuthorisationNeeded, EffectiveApertures = EffectiveApertures,
        UncheckedBalance = UncheckedRules[UncheckedBalance], SmallResidue = SmallRules[SmallResidue], Preparation = Preparation.Plan(),
        WhatChanged = WhatChanged.Trim().Length == 0 ? "First version" : WhatChanged,
    };

    private static Pressure? InPascals(decimal? kilopascals) => kilopascals is { } given ? Pressure.FromPascals((long)(given * 1_000m)) : null;
}
