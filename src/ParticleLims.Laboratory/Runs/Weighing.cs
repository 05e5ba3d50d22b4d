using ParticleLims.Analysis.Quantities;
using ParticleLims.Laboratory.Balances;

namespace ParticleLims.Laboratory.Runs;

/// <summary>What was on the pan.</summary>
public enum WeighingKind
{
    /// <summary>Nested stack: the empty container of the test portion.</summary>
    ContainerEmpty,
    /// <summary>Nested stack: the container with the test portion.</summary>
    ContainerLoaded,
    /// <summary>A clean, empty sieve.</summary>
    Empty,
    /// <summary>The sieve with the powder before sieving.</summary>
    Loaded,
    /// <summary>The sieve with the residue after sieving.</summary>
    After,
    /// <summary>Nested stack: the clean, empty receiver.</summary>
    ReceiverEmpty,
    /// <summary>Nested stack: the receiver with what passed every sieve.</summary>
    ReceiverAfter,
    /// <summary>Air jet: the empty collector of the fines.</summary>
    CollectorEmpty,
    /// <summary>Air jet: the collector with the fines of the whole run.</summary>
    CollectorAfter,
}

/// <summary>One stable balance reading with what was on the pan; never changed, only superseded with a reason.</summary>
public sealed class Weighing
{
    public Guid Id { get; init; }
    public Guid RunId { get; init; }
    public WeighingKind Kind { get; init; }

    /// <summary>The sieve's position; 0 for container, receiver and collector.</summary>
    public int Position { get; init; }

    /// <summary>0 after the method's sieving time; 1 and on after each further interval of the end point.</summary>
    public int Round { get; init; }
    public Mass Mass { get; init; }

    /// <summary>The decimals of a gram that the display showed.</summary>
    public int Decimals { get; init; }

    /// <summary>The balance's line as it came.</summary>
    public required string RawLine { get; init; }
    public Guid BalanceId { get; init; }

    /// <summary>By which way the reading came in.</summary>
    public WayIn WayIn { get; init; }

    /// <summary>The second person who confirmed a mass that was keyed by hand.</summary>
    public Guid? ConfirmedById { get; init; }
    public string? ConfirmedByName { get; init; }
    public Guid PersonId { get; init; }
    public required string PersonName { get; init; }
    public required string Terminal { get; init; }
    public DateTimeOffset At { get; init; }

    /// <summary>The mistaken weighing that this one stands in for.</summary>
    public Guid? SupersedesId { get; init; }

    /// <summary>Why it was weighed again.</summary>
    public string? Reason { get; init; }
}

/// <summary>A stretch of sieving. Several on one sieve add up.</summary>
public sealed class SievingInterval
{
    public Guid Id { get; init; }
    public Guid RunId { get; init; }

    /// <summary>The sieve's position; 0 for the whole stack.</summary>
    public int Position { get; init; }

    /// <summary>0 for the method's sieving time; 1 and on for each further interval of the end point.</summary>
    public int Round { get; init; }
    public DateTimeOffset StartedAt { get; init; }
    public DateTimeOffset? EndedAt { get; set; }

    /// <summary>Seconds that were sieved, once it has ended.</summary>
    public int Seconds { get; set; }
    public Guid PersonId { get; init; }
    public required string PersonName { get; init; }
    public Pressure? PressureLowest { get; set; }
    public Pressure? PressureMean { get; set; }
    public Pressure? PressureHighest { get; set; }

    /// <summary>Where the pressure comes from; null where none was noted.</summary>
    public PressureSource? PressureSource { get; set; }

    /// <summary>The course of the pressure as it is stored, ms and Pa; null where it was read by hand.</summary>
    public string? PressureCourse { get; set; }

    /// <summary>The course of the pressure.</summary>
    public IReadOnlyList<PressureMoment> Course => PressureSeen.ReadCourse(PressureCourse);
}

/// <summary>Kinds of weighings in words.</summary>
public static class WeighingKindWords
{
    /// <summary>What was on the pan, as people say it.</summary>
    public static string Words(this WeighingKind kind) => kind switch
    {
        WeighingKind.ContainerEmpty => "empty container",
        WeighingKind.ContainerLoaded => "container with test portion",
        WeighingKind.Empty => "empty sieve",
        WeighingKind.Loaded => "sieve with powder",
        WeighingKind.After => "sieve with residue",
        WeighingKind.ReceiverEmpty => "empty receiver",
        WeighingKind.ReceiverAfter => "receiver with fines",
        WeighingKind.CollectorEmpty => "empty collector",
        WeighingKind.CollectorAfter => "collector with fines",
        _ => throw new ArgumentOutOfRangeException(nameof(kind), kind, "Not a kind of weighing."),
    };
}
