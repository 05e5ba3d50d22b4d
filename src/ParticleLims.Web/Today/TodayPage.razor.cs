using Microsoft.AspNetCore.Components;
using ParticleLims.Laboratory.Certificates;
using ParticleLims.Laboratory.Record;
using ParticleLims.Laboratory.Today;

namespace ParticleLims.Web.Today;

/// <summary>What waits for whoever is signed on; each row leads to the place to act.</summary>
public sealed partial class TodayPage
{
    private TodayBoard? board;
    private IReadOnlyList<CertificateRow>? certificates;

    [Inject]
    private TodayReading Waiting { get; set; } = null!;

    [Inject]
    private CertificateShelf Shelf { get; set; } = null!;

    /// <inheritdoc />
    protected override async Task LoadAsync()
    {
        if (By.May(Permission.SeeLaboratory))
        {
            board = await Waiting.BoardAsync(Actor, Clock.Today, Leaving);
        }
        else if (By.May(Permission.SeeCertificates))
        {
            certificates = await Shelf.AllAsync(Actor, null, null, TodayBoard.Most, Leaving);
        }
    }

    private static string PlaceOf(WaitingDocument kind) => kind switch
    {
        WaitingDocument.Method => "/methods",
        WaitingDocument.Specification => "/specifications",
        WaitingDocument.CertificateTemplate => "/certificates/templates",
        _ => throw new ArgumentOutOfRangeException(nameof(kind), kind, "Not a document."),
    };

    private static string CertificateKind(CertificateState state) => state == CertificateState.Issued ? "good" : "off";
}
