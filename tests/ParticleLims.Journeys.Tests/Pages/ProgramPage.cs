using Microsoft.Playwright;

namespace ParticleLims.Journeys.Tests.Pages;

/// <summary>A page of the program as one person sees it.</summary>
/// <param name="Name">The stable name of its picture.</param>
/// <param name="Who">The key in the access file of the person for whom it is, such as <c>technician.1</c>; null for nobody signed on.</param>
/// <param name="Path">Its address.</param>
/// <param name="Heading">What its heading begins with.</param>
public sealed record ProgramPage(string Name, string? Who, string Path, string Heading)
{
    /// <summary>The status with which it answers.</summary>
    public int Status { get; init; } = 200;

    /// <summary>Whether it has a circuit; the pages before sign-on have none.</summary>
    public bool Live { get; init; } = true;

    /// <summary>In the handbook also as on a phone.</summary>
    public bool OnPhone { get; init; }

    /// <summary>In the handbook also in the dark look.</summary>
    public bool InDark { get; init; }

    /// <summary>What is done on the page before it is looked at.</summary>
    public Func<IPage, Task>? First { get; init; }

    /// <summary>The screens of the handbook.</summary>
    public IEnumerable<PageView> HandbookViews => [PageView.Desk, .. OnPhone ? [PageView.Phone] : Array.Empty<PageView>(), .. InDark ? [PageView.DeskDark] : Array.Empty<PageView>()];
}
