using Microsoft.EntityFrameworkCore;
using ParticleLims.Laboratory.Certificates;
using ParticleLims.Laboratory.Customers;
using ParticleLims.Laboratory.Documents;
using ParticleLims.Laboratory.People;
using ParticleLims.Laboratory.Record;
using ParticleLims.Laboratory.Templates;

namespace ParticleLims.Laboratory.Tests.Templates;

/// <summary>Templates from the draft to the certificate: written, approved by somebody else, chosen for a customer, frozen at issue.</summary>
public sealed class TemplateKeepingTests
{
    private static readonly TemplateDraft Coatings = new(PaperPlan.Usual with
    {
        Kind = PaperKind.TestReport, Blocks = [.. PaperBlockWords.Usual.Reverse()], Omitted = [PaperField.Quantity], Net = true, Logo = new PaperLogo(string.Empty, 0, 0, "A mill wheel"),
        Texts = [new PaperTexts("en") { Storage = "Keep dry", Note = "Ask us" }, new PaperTexts("de") { Storage = "Trocken lagern" }],
    })
    {
        Picture = LogoFiles.Png(),
    };

    [Theory]
    [EachDatabase]
    public async Task The_standard_template_is_there_from_the_beginning_and_its_first_version_is_the_programs(DatabaseKind kind)
    {
        await using var laboratory = await OpenedSmallLaboratory.OpenAsync(kind);
        var (small, manager) = (laboratory.Small, laboratory.Small.People.LaboratoryManager.Actor);
        var standard = (await small.Get<TemplateKeeping>().AllAsync(manager, default)).ShouldHaveSingleItem();
        (standard.Template.Code, standard.Template.IsStandard, standard.InForce!.Number, standard.InForce.AuthorName, standard.InForce.Plan.Write()).ShouldBe(("STANDARD", true, 1, "ParticleLims", PaperPlan.Usual.Write()));

        var second = await small.Get<TemplateKeeping>().ReviseAsync(manager, CertificateTemplate.StandardId, Coatings, null, default);
        standard = (await small.Get<TemplateKeeping>().FindAsync(manager, CertificateTemplate.StandardId, default))!;
        standard.Versions.Select(version => (version.Number, version.State)).ShouldBe([(2, DocumentState.Draft), (1, DocumentState.InForce)]);
        await ApproveAsync(small, second);
        standard = (await small.Get<TemplateKeeping>().FindAsync(manager, CertificateTemplate.StandardId, default))!;
        standard.Versions.Select(version => (version.Number, version.State)).ShouldBe([(2, DocumentState.InForce), (1, DocumentState.Superseded)]);
        TemplateFacts.Of(standard.Versions[0]).ShouldContain(new VersionFact("Left out", "Quantity"));
    }

    [Theory]
    [EachDatabase]
    public async Task A_version_is_approved_by_another_persons_signature_over_what_it_says_and_never_changes(DatabaseKind kind)
    {
        await using var laboratory = await OpenedSmallLaboratory.OpenAsync(kind);
        var (small, manager) = (laboratory.Small, laboratory.Small.People.LaboratoryManager);
        var (keeping, approval) = (small.Get<TemplateKeeping>(), small.Get<DocumentApproval<CertificateTemplate, CertificateTemplateVersion>>());
        var version = await keeping.WriteAsync(manager.Actor, " CT-COATINGS ", "For coatings", Coatings, "write-1", default);
        (await keeping.WriteAsync(manager.Actor, " CT-COATINGS ", "For coatings", Coatings, "write-1", default)).ShouldBe(version, "the same key asks for the same template");
        await laboratory.ShouldRefuseAsync("template-code-used", () => keeping.WriteAsync(manager.Actor, "CT-COATINGS", "Once more", Coatings, null, default));
        await laboratory.ShouldRefuseAsync("template-code-used", () => keeping.WriteAsync(manager.Actor, "STANDARD", "Another one", Coatings, null, default));
        await approval.HandOverAsync(manager.Actor, version, 1, default);
        var template = (await keeping.AllAsync(manager.Actor, default)).Single(one => one.Template.Code == "CT-COATINGS").Template;
        await laboratory.ShouldRefuseAsync("template-in-approval", () => keeping.ReviseAsync(manager.Actor, template.Id, Coatings, null, default));
        var own = await small.ProofAsync(manager);
        await laboratory.ShouldRefuseAsync("own-work", () => approval.ApproveAsync(manager.Actor, version, null, own, 2, default));
        await approval.ApproveAsync(small.People.QualityManager.Actor, version, null, await small.ProofAsync(small.People.QualityManager), 2, default);

        await using var data = laboratory.Data();
        var signed = await data.Signatures.SingleAsync(one => one.SubjectId == template.Id);
        (signed.SubjectKind, signed.Meaning, signed.PrintedName).ShouldBe(("CertificateTemplate", "approved", small.People.QualityManager.FullName));
        signed.Content.ShouldContain("Keep dry");
        (await small.Get<SignatureReading>().OfAsync(manager.Actor, template.Id, default)).ShouldHaveSingleItem().Unchanged.ShouldBe(true);
        await data.Database.ExecuteSqlRawAsync("UPDATE certificate_template_versions SET written = replace(written, 'Keep dry', 'Keep wet')");
        (await small.Get<SignatureReading>().OfAsync(manager.Actor, template.Id, default)).ShouldHaveSingleItem().Unchanged.ShouldBe(false, "what was approved was changed in the database");
    }

    [Theory]
    [EachDatabase]
    public async Task A_certificate_is_drawn_by_the_version_in_force_when_it_was_issued_and_keeps_it(DatabaseKind kind)
    {
        await using var laboratory = await OpenedSmallLaboratory.OpenAsync(kind);
        var (small, manager) = (laboratory.Small, laboratory.Small.People.LaboratoryManager.Actor);
        var lot = await (await small.BookInAsync(small.Calcite)).ReleaseAsync(Powder.Calcite);
        var plain = await ContentAsync(laboratory, await small.Desk.IssueAsync(lot.Id, lot.Sample.Id));
        (plain.Layout!.Template, plain.Layout.Version, plain.Layout.Kind, plain.Layout.Omitted.Count, plain.Layout.Storage, plain.RosinRammlerNet).ShouldBe(("STANDARD", 1, "analysis", 0, null, false));

        var template = await ChosenAsync(small, Coatings, new CertificateWishes { Language = "de" });
        var id = await IssueAnotherAsync(small);
        var content = await ContentAsync(laboratory, id);
        var layout = content.Layout!;
        (layout.Template, layout.Version, layout.Kind, layout.Storage, layout.Note, layout.Accreditation, content.RosinRammlerNet).ShouldBe(("CT-COATINGS", 1, "testReport", "Trocken lagern", "Ask us", null, true));
        layout.Blocks.ShouldBe(["signatures", "notes", "testing", "net", "sieves", "results", "particulars"]);
        layout.Omitted.ShouldBe(["quantity"]);
        content.Product.Quantity.ShouldNotBeNull("what is not printed stands in the machine-readable twin all the same");
        (layout.Logo!.Width, layout.Logo.Height, layout.Logo.Alternative).ShouldBe((120, 40, "A mill wheel"));
        (await small.Get<TemplateKeeping>().LogoAsync(manager, layout.Logo.Sha256, default))!.Bytes.ShouldBe(LogoFiles.Png());

        await ApproveAsync(small, await small.Get<TemplateKeeping>().ReviseAsync(manager, template, new TemplateDraft(PaperPlan.Usual, "Plain again"), null, default));
        (await ContentAsync(laboratory, id)).Layout!.Storage.ShouldBe("Trocken lagern", "what was issued keeps its look");
        var next = (await ContentAsync(laboratory, await IssueAnotherAsync(small))).Layout!;
        (next.Version, next.Kind, next.Storage, next.Logo).ShouldBe((2, "analysis", null, null));
    }

    [Theory]
    [EachDatabase]
    public async Task A_customer_is_given_only_a_template_that_is_in_force(DatabaseKind kind)
    {
        await using var laboratory = await OpenedSmallLaboratory.OpenAsync(kind);
        var (small, manager) = (laboratory.Small, laboratory.Small.People.LaboratoryManager.Actor);
        var version = await small.Get<TemplateKeeping>().WriteAsync(manager, "CT-COATINGS", "For coatings", Coatings, null, default);
        var template = (await small.Get<TemplateKeeping>().AllAsync(manager, default)).Single(one => one.Template.Code == "CT-COATINGS").Template.Id;
        await laboratory.ShouldRefuseAsync("template-not-in-force", () => ChooseAsync(small, new CertificateWishes { Template = template }));
        await laboratory.ShouldRefuseAsync("template-not-in-force", () => ChooseAsync(small, new CertificateWishes { Template = Guid.CreateVersion7() }));
        await ApproveAsync(small, version);
        await ChooseAsync(small, new CertificateWishes { Template = template });
        (await small.Get<CustomerKeeping>().FindAsync(manager, small.Customer, default))!.Certificates.Template.ShouldBe(template);
        (await laboratory.LastEventAsync()).Changes.ShouldContain("Template");
    }

    [Theory]
    [EachDatabase]
    public async Task A_logo_that_is_not_kept_here_and_a_text_that_cannot_be_printed_are_refused_and_nothing_is_written(DatabaseKind kind)
    {
        await using var laboratory = await OpenedSmallLaboratory.OpenAsync(kind);
        var (small, manager) = (laboratory.Small, laboratory.Small.People.LaboratoryManager.Actor);
        var foreign = new TemplateDraft(PaperPlan.Usual with { Logo = new PaperLogo(new string('a', 64), 120, 40, "A mill wheel") });
        await laboratory.ShouldRefuseAsync("logo-unknown", () => small.Get<TemplateKeeping>().WriteAsync(manager, "CT-FOREIGN", "Foreign", foreign, null, default));
        await laboratory.ShouldRefuseAsync("logo", () => small.Get<TemplateKeeping>().WriteAsync(manager, "CT-SVG", "Drawing", Coatings with { Picture = "<svg/>"u8.ToArray() }, null, default));
        await laboratory.ShouldRefuseAsync("certificate-template", () => small.Get<TemplateKeeping>().WriteAsync(manager, "CT-LESS", "Less", new TemplateDraft(PaperPlan.Usual with { Omitted = [PaperField.Customer] }), null, default));
        await using var data = laboratory.Data();
        (await data.CertificateTemplates.CountAsync(), await data.CertificateLogos.CountAsync()).ShouldBe((0, 0));
    }

    [Theory]
    [EachDatabase]
    public async Task An_accreditation_is_printed_only_of_methods_in_its_scope_until_its_last_day(DatabaseKind kind)
    {
        await using var laboratory = await OpenedSmallLaboratory.OpenAsync(kind);
        var small = laboratory.Small;
        var today = DateOnly.FromDateTime(small.Get<TimeProvider>().GetUtcNow().UtcDateTime);
        await ChosenAsync(small, Accredited("M-GC-45", today.AddDays(30)), new CertificateWishes());
        (await ContentAsync(laboratory, await IssueAnotherAsync(small))).Layout!.Accreditation.ShouldBe("No. 4711");
        await StandardAsync(small, Accredited("M-PS-63", today.AddDays(30)));
        (await ContentAsync(laboratory, await IssueAnotherAsync(small))).Layout!.Accreditation.ShouldBeNull("another method");
        await StandardAsync(small, Accredited("M-GC-45", today.AddDays(-1)));
        (await ContentAsync(laboratory, await IssueAnotherAsync(small))).Layout!.Accreditation.ShouldBeNull("its last day is over");

        static TemplateDraft Accredited(string method, DateOnly until) =>
            new(PaperPlan.Usual with { Texts = [new PaperTexts("en") { Accreditation = "No. 4711" }], Scope = new AccreditedScope([method], until) }, "As the body wrote");

        async Task StandardAsync(SmallLaboratory at, TemplateDraft draft)
        {
            await ChooseAsync(at, new CertificateWishes());
            await ApproveAsync(at, await at.Get<TemplateKeeping>().ReviseAsync(at.People.LaboratoryManager.Actor, CertificateTemplate.StandardId, draft, null, default));
        }
    }

    [Theory]
    [EachDatabase]
    public async Task An_inspection_certificate_is_refused_where_who_released_the_lot_measured_it_too(DatabaseKind kind)
    {
        await using var laboratory = await OpenedSmallLaboratory.OpenAsync(kind);
        var small = laboratory.Small;
        await ChosenAsync(small, new TemplateDraft(PaperPlan.Usual with { Kind = PaperKind.InspectionCertificate }), new CertificateWishes());
        (await ContentAsync(laboratory, await IssueAnotherAsync(small))).Layout!.Kind.ShouldBe("inspectionCertificate");

        var person = small.People.QualityManager;
        await small.SwitchOnePersonAsync();
        await small.GiveRolesAsync(person, Role.Technician, Role.Reviewer, Role.QualityManager, Role.LaboratoryManager);
        var lot = await small.BookInAsync(small.Calcite);
        await small.Bench(person).CarryOutAsync(lot.RunId, small.Calcite, Powder.Calcite);
        await small.Desk.AcceptAsync(lot.RunId, person);
        await small.Desk.ReleaseAsync(lot.Id, person);
        var refusal = await laboratory.ShouldRefuseAsync("release-not-independent", () => small.Desk.IssueAsync(lot.Id, lot.Sample.Id));
        refusal.Message.ShouldContain(person.FullName);
    }

    [Theory]
    [EachDatabase]
    public async Task A_preview_shows_the_newest_certificate_or_an_invented_one_and_stores_nothing(DatabaseKind kind)
    {
        await using var laboratory = await OpenedSmallLaboratory.OpenAsync(kind);
        var (small, manager) = (laboratory.Small, laboratory.Small.People.LaboratoryManager.Actor);
        var preview = small.Get<TemplatePreview>();
        var standard = (await small.Get<TemplateKeeping>().FindAsync(manager, CertificateTemplate.StandardId, default))!.Versions[0].Id;
        System.Text.Encoding.UTF8.GetString((await preview.OfVersionAsync(manager, standard, "de", "Letter", default))!).ShouldContain("GC-26-0311", customMessage: "the invented lot");
        var lot = await (await small.BookInAsync(small.Calcite)).ReleaseAsync(Powder.Calcite);
        await small.Desk.IssueAsync(lot.Id, lot.Sample.Id);
        var last = await laboratory.LastEventAsync();
        System.Text.Encoding.UTF8.GetString(await preview.OfDraftAsync(manager, Coatings, "fr", "A4", default)).ShouldContain("L-0001");
        (await preview.OfVersionAsync(manager, Guid.CreateVersion7(), "en", "A4", default)).ShouldBeNull();
        await Should.ThrowAsync<RefusedException>(() => preview.OfDraftAsync(manager, Coatings, "xx", "A4", default));
        await Should.ThrowAsync<RefusedException>(() => preview.OfDraftAsync(manager, Coatings with { Picture = [1, 2, 3] }, "en", "A4", default));
        (await laboratory.LastEventAsync()).Sequence.ShouldBe(last.Sequence);
        await using var data = laboratory.Data();
        (await data.CertificateLogos.CountAsync()).ShouldBe(0);
    }

    private static async Task<Guid> ChosenAsync(SmallLaboratory small, TemplateDraft draft, CertificateWishes wishes)
    {
        var version = await small.Get<TemplateKeeping>().WriteAsync(small.People.LaboratoryManager.Actor, "CT-COATINGS", "For coatings", draft, null, default);
        await ApproveAsync(small, version);
        var template = (await small.Get<TemplateKeeping>().AllAsync(small.People.LaboratoryManager.Actor, default)).Single(one => one.Template.Code == "CT-COATINGS").Template.Id;
        await ChooseAsync(small, wishes with { Template = template });
        return template;
    }

    private static async Task ChooseAsync(SmallLaboratory small, CertificateWishes wishes)
    {
        var (keeping, manager) = (small.Get<CustomerKeeping>(), small.People.LaboratoryManager.Actor);
        var customer = (await keeping.FindAsync(manager, small.Customer, default))!;
        await keeping.ChangeAsync(manager, customer.Id, new CustomerCard(customer.Name, customer.Address, customer.Contact) { Certificates = wishes }, "They wrote so", customer.Version, default);
    }

    private static async Task ApproveAsync(SmallLaboratory small, Guid version)
    {
        var approval = small.Get<DocumentApproval<CertificateTemplate, CertificateTemplateVersion>>();
        await approval.HandOverAsync(small.People.LaboratoryManager.Actor, version, 1, default);
        await approval.ApproveAsync(small.People.QualityManager.Actor, version, null, await small.ProofAsync(small.People.QualityManager), 2, default);
    }

    private static async Task<Guid> IssueAnotherAsync(SmallLaboratory small)
    {
        var lot = await (await small.BookInAsync(small.Calcite)).ReleaseAsync(Powder.Calcite);
        return await small.Desk.IssueAsync(lot.Id, lot.Sample.Id);
    }

    private static async Task<CertificateContent> ContentAsync(OpenedSmallLaboratory laboratory, Guid id)
    {
        await using var data = laboratory.Data();
        return CertificateIssue.ReadContent(await data.Certificates.AsNoTracking().SingleAsync(one => one.Id == id));
    }
}
