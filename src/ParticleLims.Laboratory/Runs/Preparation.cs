using ParticleLims.Analysis.Quantities;

namespace ParticleLims.Laboratory.Runs;

/// <summary>What is done before the first sieve.</summary>
public enum PreparationKind
{
    /// <summary>Temperature and humidity of the room are read.</summary>
    RoomConditions,
    /// <summary>The powder is dried in an oven.</summary>
    Drying,
    /// <summary>The powder lies open in the room until it changes no more.</summary>
    Conditioning,
    /// <summary>A flow aid is mixed in.</summary>
    FlowAid,
}

/// <summary>One preparation of a run as it was done. Conditions may be read several times; all readings stay, the last one counts.</summary>
public sealed class Preparation
{
    public Guid Id { get; init; }
    public Guid RunId { get; init; }
    public PreparationKind Kind { get; init; }
    public DateTimeOffset StartedAt { get; init; }

    /// <summary>Null while it goes on.</summary>
    public DateTimeOffset? EndedAt { get; set; }

    /// <summary>The room's temperature, or the oven's as its thermometer showed it.</summary>
    public Temperature? Temperature { get; init; }

    /// <summary>The room's relative humidity in percent.</summary>
    public decimal? HumidityPercent { get; init; }

    /// <summary>Flow aid: which one, with its batch, in words.</summary>
    public string? Note { get; init; }
    public Guid PersonId { get; init; }
    public required string PersonName { get; init; }
    public required string Terminal { get; init; }

    /// <summary>Who ended it.</summary>
    public string? EndedByName { get; set; }

    /// <summary>Whole minutes that it lasted; null while it goes on.</summary>
    public int? Minutes => EndedAt is { } end ? (int)Math.Max(0, Math.Floor((end - StartedAt).TotalMinutes)) : null;
}

/// <summary>Preparations in words.</summary>
public static class PreparationWords
{
    /// <summary>The preparation as people say it.</summary>
    public static string Words(this PreparationKind kind) => kind switch
    {
        PreparationKind.RoomConditions => "conditions of the room",
        PreparationKind.Drying => "drying",
        PreparationKind.Conditioning => "conditioning",
        PreparationKind.FlowAid => "flow aid",
        _ => throw new ArgumentOutOfRangeException(nameof(kind), kind, "Not a preparation."),
    };
}
