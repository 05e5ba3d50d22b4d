using ParticleLims.Laboratory.Deliveries;
using ParticleLims.Laboratory.Investigations;
using ParticleLims.Laboratory.Lots;
using ParticleLims.Laboratory.Runs;

namespace ParticleLims.Laboratory.Today;

/// <summary>An investigation that is not closed, as a list shows it.</summary>
public sealed record OpenInvestigation(Guid Id, string Number, string LotNumber, string What, InvestigationState State, DateTimeOffset OpenedAt, DateOnly? DueOn);

/// <summary>What waits in the laboratory now. Each list holds at most <see cref="Most"/> rows; the totals count all.</summary>
/// <param name="UnderWay">Runs begun and not submitted, also returned ones; the oldest first.</param>
/// <param name="Planned">Runs that nobody has begun, the oldest first.</param>
/// <param name="PlannedTotal">How many there are in all.</param>
/// <param name="ToReview">Submitted runs, those with findings first.</param>
/// <param name="ToDecide">Lots awaiting disposition or on hold, the oldest first.</param>
/// <param name="Investigations">Open investigations, the oldest first.</param>
/// <param name="Signatures">What was proposed and waits for a quality manager's signature.</param>
/// <param name="Equipment">Sieves and balances that somebody has to see to.</param>
/// <param name="Documents">Versions in approval.</param>
/// <param name="Authorisations">Authorisations for methods that end soon or have ended.</param>
public sealed record TodayBoard(
    IReadOnlyList<RunRow> UnderWay, IReadOnlyList<RunRow> Planned, int PlannedTotal, IReadOnlyList<RunRow> ToReview, IReadOnlyList<LotRow> ToDecide,
    IReadOnlyList<OpenInvestigation> Investigations, IReadOnlyList<SignatureWaiting> Signatures, IReadOnlyList<EquipmentWaiting> Equipment, IReadOnlyList<DocumentWaiting> Documents, IReadOnlyList<AuthorisationWaiting> Authorisations)
{
    /// <summary>Mails about certificates that did not arrive, the newest first; for whoever issues certificates.</summary>
    public IReadOnlyList<DeliveryRow> Deliveries { get; init; } = [];

    /// <summary>The most rows of one list.</summary>
    public const int Most = 20;
}
