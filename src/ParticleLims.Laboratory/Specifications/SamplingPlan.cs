using System.Globalization;
using System.Text.Json.Serialization;
using ParticleLims.Analysis.Quantities;
using ParticleLims.Laboratory.Record;

namespace ParticleLims.Laboratory.Specifications;

/// <summary>How a lot is sampled so that the sample shows it: part of the specification, compared with what arrives, and asked for before the lot is released.</summary>
public sealed record SamplingPlan
{
    /// <summary>The most letters of a text.</summary>
    public const int Longest = 400;

    /// <summary>So many increments are taken, or containers opened.</summary>
    public required int Increments { get; init; }

    /// <summary>By which procedure, with which tool, at which point.</summary>
    public required string Procedure { get; init; }

    /// <summary>The least mass of the sample as it arrives; null asks nothing.</summary>
    public Mass? LeastMass { get; init; }

    /// <summary>What must be written down when the sample arrives, beside what is always asked: seal numbers, temperature, …; null for nothing.</summary>
    public string? ToRecord { get; init; }

    /// <summary>The plan in words: "10 increments by cross-stream cutter, at least 500 g". Not signed: a later version of the program may say the same in other words.</summary>
    [JsonIgnore]
    public string Words => string.Create(CultureInfo.InvariantCulture, $"{Increments} {(Increments == 1 ? "increment" : "increments")}: {Procedure}") + (LeastMass is { } least ? $"; at least {Grams(least)}" : string.Empty) + (ToRecord is null ? string.Empty : $"; to be written down on arrival: {ToRecord}");

    /// <summary>What the sample lacks against the plan, in words; null where the plan was carried out. What nobody knows was not carried out.</summary>
    /// <param name="increments">Increments taken; null where nobody knows.</param>
    /// <param name="mass">The mass of the sample; null where it was not weighed.</param>
    /// <param name="recorded">What was written down on arrival; null for nothing.</param>
    public string? Lacks(int? increments, Mass? mass, string? recorded)
    {
        var words = string.Join("; ", ShortfallsOf(increments, mass, recorded).Select(Said));
        return words.Length == 0 ? null : words;
    }

    /// <summary>The same, point by point.</summary>
    public IEnumerable<SamplingShortfall> ShortfallsOf(int? increments, Mass? mass, string? recorded)
    {
        if (increments is null || increments < Increments)
        {
            yield return new IncrementsShort(increments, Increments);
        }

        if (LeastMass is { } least && (mass is null || mass < least))
        {
            yield return new MassShort(mass, least);
        }

        if (ToRecord is { } asked && string.IsNullOrWhiteSpace(recorded))
        {
            yield return new NotWrittenDown(asked);
        }
    }

    internal SamplingPlan Trimmed() => this with { Procedure = Procedure.Trim(), ToRecord = ToRecord.OrNothing() };

    internal void Check()
    {
        Require(Increments is >= 1 and <= 10_000, "samplingIncrements", "A sampling plan takes 1 to 10 000 increments.");
        Require(Procedure.Trim().Length is >= 5 and <= Longest, "samplingProcedure", "Say how the increments are taken: the point, the tool, the procedure (5 to 400 letters).");
        Require(LeastMass is null || (LeastMass > Mass.Zero && LeastMass <= Mass.FromGrams(1_000_000m)), "samplingLeastMass", "The least mass of the sample lies above 0 g and is at most 1 000 kg.");
        Require((ToRecord?.Trim().Length ?? 0) <= Longest, "samplingToRecord", "What must be written down on arrival has at most 400 letters.");
    }

    private static string Said(SamplingShortfall shortfall) => shortfall switch
    {
        IncrementsShort { Taken: { } taken } few => Say($"{taken} of {few.Asked} increments were taken"),
        IncrementsShort few => Say($"how many increments were taken is not known, {few.Asked} are asked for"),
        MassShort { Came: { } came } light => $"the sample has {Grams(came)}, at least {Grams(light.Least)} are asked for",
        MassShort light => $"the sample was not weighed, at least {Grams(light.Least)} are asked for",
        NotWrittenDown missing => $"not written down on arrival: {missing.Asked}",
        _ => throw new ArgumentOutOfRangeException(nameof(shortfall), shortfall, "Not a shortfall."),
    };

    private static string Grams(Mass mass) => string.Create(CultureInfo.InvariantCulture, $"{mass.Grams:0.######} g");

    private static string Say(FormattableString words) => words.ToString(CultureInfo.InvariantCulture);

    private static void Require(bool holds, string member, string words)
    {
        if (!holds)
        {
            throw new RefusedException("sampling-plan", words, member);
        }
    }
}
