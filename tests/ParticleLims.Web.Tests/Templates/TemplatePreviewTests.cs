using System.Net;
using ParticleLims.Laboratory.Templates;
using ParticleLims.TestLaboratory;
using ParticleLims.TestLaboratory.SmallLaboratories;
using ParticleLims.Web.Templates;
using ParticleLims.Web.Tests.Shell;
using Shouldly;
using Xunit;

namespace ParticleLims.Web.Tests.Templates;

/// <summary>Previews as the browser fetches them: a PDF that our own pages may frame, of one's own draft only; logos as downloads.</summary>
public sealed class TemplatePreviewTests
{
    private const string Standard = "/certificates/templates/versions/6c696d73-0000-7000-8000-000000000003/preview";

    [Fact]
    public async Task A_preview_is_a_PDF_that_only_our_own_pages_may_frame_and_nobody_may_frame_a_page()
    {
        await using var web = await RunningWeb.StartAsync();
        var small = await SmallLaboratory.SetUpAsync(web.Services);
        using var visitor = await SignedOnAsync(web, small.People.QualityManager);
        foreach (var question in new[] { string.Empty, "?language=de&paper=Letter", "?language=fr", "?language=es&paper=A4" })
        {
            using var answer = await visitor.OpenAsync(Standard + question);
            (answer.StatusCode, answer.Content.Headers.ContentType!.MediaType).ShouldBe((HttpStatusCode.OK, "application/pdf"));
            var policy = answer.Headers.GetValues("Content-Security-Policy").Single();
            policy.ShouldContain("frame-ancestors 'self'");
            policy.ShouldContain("default-src 'none'");
            (await answer.Content.ReadAsByteArrayAsync()).AsSpan(0, 5).SequenceEqual("%PDF-"u8).ShouldBeTrue();
        }

        using var page = await visitor.OpenAsync("/certificates/templates");
        page.Headers.GetValues("Content-Security-Policy").Single().ShouldContain("frame-ancestors 'none'");
        using var unknown = await visitor.OpenAsync(Standard + "?language=xx");
        unknown.StatusCode.ShouldBe(HttpStatusCode.UnprocessableEntity);
        (await unknown.Content.ReadAsStringAsync()).ShouldContain("English (en)");
    }

    [Fact]
    public async Task A_draft_is_shown_to_whoever_writes_it_and_to_nobody_else()
    {
        await using var web = await RunningWeb.StartAsync();
        var small = await SmallLaboratory.SetUpAsync(web.Services);
        var (key, shelf) = (Guid.NewGuid(), web.Get<PreviewShelf>());
        shelf.Lay(key, small.People.QualityManager.Id, new TemplateDraft(PaperPlan.Usual with { Net = true }));
        using var writer = await SignedOnAsync(web, small.People.QualityManager);
        using var own = await writer.OpenAsync($"/certificates/templates/drafts/{key}/preview");
        own.StatusCode.ShouldBe(HttpStatusCode.OK);
        using var other = await SignedOnAsync(web, small.People.LaboratoryManager);
        using var foreign = await other.OpenAsync($"/certificates/templates/drafts/{key}/preview");
        foreign.StatusCode.ShouldBe(HttpStatusCode.NotFound);
        using var technician = await SignedOnAsync(web, small.People.Technician);
        using var forbidden = await technician.OpenAsync($"/certificates/templates/drafts/{key}/preview");
        forbidden.StatusCode.ShouldBe(HttpStatusCode.Forbidden);
        shelf.Clear(key);
        using var gone = await writer.OpenAsync($"/certificates/templates/drafts/{key}/preview");
        gone.StatusCode.ShouldBe(HttpStatusCode.NotFound);
    }

    [Fact]
    public void Of_many_drafts_the_oldest_gives_way()
    {
        var (shelf, person, first) = (new PreviewShelf(), Guid.NewGuid(), Guid.NewGuid());
        shelf.Lay(first, person, new TemplateDraft(PaperPlan.Usual));
        for (var i = 0; i < 50; i++)
        {
            shelf.Find(first, person).ShouldNotBeNull();
            shelf.Lay(Guid.NewGuid(), person, new TemplateDraft(PaperPlan.Usual));
        }

        shelf.Find(first, person).ShouldBeNull();
    }

    [Fact]
    public async Task A_logo_is_a_download_and_never_a_page()
    {
        await using var web = await RunningWeb.StartAsync();
        var small = await SmallLaboratory.SetUpAsync(web.Services);
        var draft = new TemplateDraft(PaperPlan.Usual with { Logo = new PaperLogo(string.Empty, 0, 0, "A mill wheel") }) { Picture = LogoFiles.Png() };
        await web.Get<TemplateKeeping>().WriteAsync(small.People.LaboratoryManager.Actor, "CT-LOGO", "With a logo", draft, null, default);
        using var visitor = await SignedOnAsync(web, small.People.QualityManager);
        using var answer = await visitor.OpenAsync($"/certificates/templates/logos/{LogoPicture.Of(LogoFiles.Png()).Sha256}");
        (answer.StatusCode, answer.Content.Headers.ContentType!.MediaType, answer.Content.Headers.ContentDisposition!.DispositionType).ShouldBe((HttpStatusCode.OK, "image/png", "attachment"));
        answer.Headers.GetValues("X-Content-Type-Options").Single().ShouldBe("nosniff");
        (await answer.Content.ReadAsByteArrayAsync()).ShouldBe(LogoFiles.Png());
    }

    private static async Task<Visitor> SignedOnAsync(RunningWeb web, TestPerson person)
    {
        var visitor = new Visitor(web);
        using var answer = await visitor.SignOnAsync(person.SignOnName, person.Password);
        answer.Headers.Location!.ToString().ShouldBe("/");
        return visitor;
    }
}
