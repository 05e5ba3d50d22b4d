using Microsoft.AspNetCore.Components;
using MudBlazor;
using ParticleLims.Laboratory.Record;
using ParticleLims.Laboratory.Templates;

namespace ParticleLims.Web.Templates;

/// <summary>Writes a template of certificates, or the next version of one that begins as a copy of the newest, with the paper beside it as it would look.</summary>
public sealed partial class TemplateEditorPage
{
    /// <summary>So long nothing has to be typed before the paper is drawn again.</summary>
    private static readonly TimeSpan Pause = TimeSpan.FromMilliseconds(450);

    private Guid key;
    private TemplateSheet? sheet;
    private MudForm form = null!;
    private string asked = string.Empty;
    private string code = string.Empty;
    private string codeShown = string.Empty;
    private string title = string.Empty;
    private string whatChanged = string.Empty;
    private string? problem;
    private int change;
    private int turn;

    /// <summary>The template to revise; null for a new one.</summary>
    [Parameter] public Guid? Id { get; set; }

    [Inject] private TemplateKeeping Keeping { get; set; } = null!;
    [Inject] private PreviewShelf Shelf { get; set; } = null!;

    private string Heading => Id is null ? "Write a template of certificates" : $"Write the next version of {codeShown}";

    private string? KindHelp => TemplateSheet.Kinds[sheet!.Kind] == PaperKind.InspectionCertificate ? "Issued only where whoever released the lot measured nothing of it." : null;

    private string WhatChanged => whatChanged.Trim().Length == 0 ? "First version" : whatChanged;

    /// <inheritdoc />
    protected override async Task LoadAsync()
    {
        key = Guid.CreateVersion7(Clock.Now);
        asked = Guid.CreateVersion7(Clock.Now).ToString("N");
        if (Id is { } id)
        {
            var page = await Keeping.FindAsync(Actor, id, Leaving) ?? throw new RefusedException("not-found", "There is no such template.");
            (sheet, codeShown) = (TemplateSheet.Of(page.Versions[0].Plan), page.Template.Code);
        }
        else
        {
            sheet = new TemplateSheet();
        }

        Show();
    }

    /// <inheritdoc />
    protected override void Dispose(bool disposing)
    {
        Shelf.Clear(key);
        base.Dispose(disposing);
    }

    private Task SetAsync(Action set)
    {
        set();
        return SoonAsync();
    }

    /// <summary>Draws again once nothing was changed for a moment.</summary>
    private async Task SoonAsync()
    {
        var mine = ++turn;
        try
        {
            await Task.Delay(Pause, Leaving);
        }
        catch (OperationCanceledException)
        {
            return;
        }

        if (mine == turn)
        {
            Show();
        }
    }

    private void Show()
    {
        // The page as it is first sent is not the one that is written in; its draft would be gone before the frame asks for it.
        if (!RendererInfo.IsInteractive)
        {
            return;
        }

        try
        {
            var draft = sheet!.Draft(WhatChanged);
            draft.Checked();
            Shelf.Lay(key, By.PersonId!.Value, draft);
            (problem, change) = (null, change + 1);
        }
        catch (RefusedException refusal)
        {
            problem = refusal.Message;
        }
    }

    private async Task SaveAsync()
    {
        await ValidateAsync(form);
        if (!form.IsValid)
        {
            return;
        }

        var address = string.Empty;
        if (await DoAsync(async () => address = await WriteAsync(), "Written as a draft. Hand it over for approval when it is ready."))
        {
            Navigation.NavigateTo(address);
        }
    }

    private async Task<string> WriteAsync()
    {
        if (Id is { } id)
        {
            await Keeping.ReviseAsync(Actor, id, sheet!.Draft(WhatChanged), asked, Leaving);
            return $"/certificates/templates/{id}";
        }

        var version = await Keeping.WriteAsync(Actor, code, title, sheet!.Draft(WhatChanged), asked, Leaving);
        return $"/certificates/templates/{(await Keeping.AllAsync(Actor, Leaving)).Find(one => one.Versions.Any(written => written.Id == version))!.Template.Id}";
    }
}
