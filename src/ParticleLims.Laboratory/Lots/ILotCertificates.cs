using ParticleLims.Laboratory.Record;
using ParticleLims.Laboratory.Storage;

namespace ParticleLims.Laboratory.Lots;

/// <summary>What became known of a lot outside the house. Implemented by Certificates, which lean on lots and not the other way round.</summary>
public interface ILotCertificates
{
    /// <summary>The numbers of all certificates of a lot, whatever became of them, in their order.</summary>
    Task<IReadOnlyList<string>> NumbersAsync(LaboratoryContext data, Guid lotId, CancellationToken cancellation);

    /// <summary>Suspends those in force within the running deed: their public check says so from now on.</summary>
    Task SuspendAsync(DeedScope scope, Guid lotId, string reason, CancellationToken cancellation);

    /// <summary>Suspends those in force while a case is open; nobody reinstates them by hand meanwhile.</summary>
    /// <param name="scope">The running deed.</param>
    /// <param name="held">The case.</param>
    /// <param name="lotId">The lot.</param>
    /// <param name="samples">The samples that the case touches; null for all of the lot.</param>
    /// <param name="cancellation">Ends the deed before it is written.</param>
    Task HoldAsync(DeedScope scope, HoldingCase held, Guid lotId, IReadOnlyCollection<Guid>? samples, CancellationToken cancellation);

    /// <summary>The case is closed: what it suspended counts again where its decision lifts it, and no other reason to suspend it is left; else it stays suspended until somebody reinstates, revises or withdraws it.</summary>
    /// <param name="scope">The running deed.</param>
    /// <param name="caseId">The case.</param>
    /// <param name="lotId">The lot; null for all that the case holds.</param>
    /// <param name="lifts">Whether the decision lifts the suspension.</param>
    /// <param name="words">What was decided.</param>
    /// <param name="cancellation">Ends the deed before it is written.</param>
    Task EndHoldAsync(DeedScope scope, Guid caseId, Guid? lotId, bool lifts, string words, CancellationToken cancellation);
}

/// <summary>What is looked into.</summary>
public enum HoldingCaseKind
{
    /// <summary>Equipment that turned out to have failed.</summary>
    EquipmentFailure,
    /// <summary>An investigation of a value.</summary>
    Investigation,
}

/// <summary>An open case that suspends certificates.</summary>
/// <param name="Kind">What is looked into.</param>
/// <param name="Id">The case.</param>
/// <param name="Number">Its number.</param>
public sealed record HoldingCase(HoldingCaseKind Kind, Guid Id, string Number);
