using ParticleLims.Laboratory.Record;
using ParticleLims.Laboratory.Storage;

namespace ParticleLims.Laboratory.EquipmentFailures;

/// <summary>What is decided about a lot whose results a failed piece of equipment touched.</summary>
public enum TouchedLotDecision
{
    /// <summary>Nothing yet.</summary>
    Open,
    /// <summary>The fault cannot have changed the verdict.</summary>
    ResultsStand,
    /// <summary>It is sieved again with equipment that is fit.</summary>
    SievedAgain,
    /// <summary>The certificate is withdrawn and the customer told.</summary>
    CustomerTold,
}

/// <summary>The case that opens when a piece of equipment turns out to be bad: everything it touched since its last good check, and what is decided about it.</summary>
public sealed class EquipmentFailure : IVersioned
{
    public Guid Id { get; init; }

    /// <summary>For example <c>E-26-00001</c>.</summary>
    public required string Number { get; init; }
    public Guid EquipmentId { get; init; }
    public required string EquipmentLabel { get; init; }

    /// <summary>What is wrong with it.</summary>
    public required string What { get; init; }

    /// <summary>Its last good check: what was weighed or sieved from here on is in doubt.</summary>
    public DateTimeOffset GoodUntil { get; init; }
    public DateTimeOffset OpenedAt { get; init; }
    public required string OpenedByName { get; init; }
    public DateTimeOffset? ClosedAt { get; private set; }
    public string? ClosedByName { get; private set; }
    public string? Conclusion { get; private set; }
    public List<TouchedRun> Runs { get; } = [];
    public List<TouchedLot> Lots { get; } = [];
    public long Version { get; set; }

    /// <summary>Whether decisions are still asked.</summary>
    public bool IsOpen => ClosedAt is null;

    /// <summary>Refuses once it is closed.</summary>
    public void RequireOpen()
    {
        if (!IsOpen)
        {
            throw new RefusedException("failure-closed", $"Case {Number} is closed.");
        }
    }

    /// <summary>The quality manager closes it when every lot is decided on.</summary>
    public void Close(DeedScope scope, string conclusion)
    {
        ArgumentNullException.ThrowIfNull(scope);
        RequireOpen();
        if (Lots.Find(lot => lot.Decision == TouchedLotDecision.Open) is { } open)
        {
            throw new RefusedException("lot-open", $"Nothing is decided yet about lot {open.LotNumber}. Decide on every lot first.");
        }

        (ClosedAt, ClosedByName, Conclusion) = (scope.Now, scope.By.Name, conclusion.Trim());
    }
}

/// <summary>A run that used the item after its last good check, written once when the case opens.</summary>
public sealed class TouchedRun
{
    public Guid FailureId { get; init; }
    public Guid RunId { get; init; }
    public required string RunNumber { get; init; }
    public Guid SampleId { get; init; }
    public Guid LotId { get; init; }
}

/// <summary>A lot with such a run, and what is decided about it.</summary>
public sealed class TouchedLot
{
    public Guid FailureId { get; init; }
    public Guid LotId { get; init; }
    public required string LotNumber { get; init; }
    public TouchedLotDecision Decision { get; set; }
    public string? Words { get; set; }
    public string? DecidedByName { get; set; }
    public DateTimeOffset? DecidedAt { get; set; }
}

/// <summary>Words for people.</summary>
public static class EquipmentFailureWords
{
    /// <summary>The decision as people say it.</summary>
    public static string Words(this TouchedLotDecision decision) => decision switch
    {
        TouchedLotDecision.Open => "to be decided",
        TouchedLotDecision.ResultsStand => "the results stand",
        TouchedLotDecision.SievedAgain => "sieved again",
        TouchedLotDecision.CustomerTold => "certificate withdrawn, customer told",
        _ => throw new ArgumentOutOfRangeException(nameof(decision), decision, "Not a decision."),
    };
}
