using ParticleLims.Laboratory.Certificates;
using ParticleLims.Laboratory.Customers;
using ParticleLims.Laboratory.Documents;
using ParticleLims.Laboratory.Histories;
using ParticleLims.Laboratory.Methods;
using ParticleLims.Laboratory.Products;
using ParticleLims.Laboratory.Record;
using ParticleLims.Laboratory.Runs;
using ParticleLims.Laboratory.Specifications;
using ParticleLims.Laboratory.Templates;
using static ParticleLims.Laboratory.Tests.Record.Ability;

namespace ParticleLims.Laboratory.Tests.Record;

/// <summary>What is done with customers, products, methods and specifications.</summary>
internal static class DocumentAbilities
{
    private const Who Writers = Who.Reviewer | Who.QualityManager | Who.LaboratoryManager;
    private const Who Approvers = Who.QualityManager | Who.LaboratoryManager;
    private const string Why = "Written anew";
    private static readonly DateOnly NextYear = DateOnly.FromDateTime(RunningLaboratory.FirstMorning.UtcDateTime.AddYears(1));
    private static readonly Guid Nothing = Guid.CreateVersion7();
    private static readonly SecretProof NoProof = new(Nothing);
    private static readonly CustomerCard Nobody = new(" ", "Street 1", "mail");
    private static readonly CustomerCard Halvard = new("Halvard Nutrition", "Quay 3\nWestmere", "goods-in@halvard.example");
    private static readonly ProductCard NoProduct = new(" ", "Powder", "White", null);
    private static readonly ProductCard Sugar = new("MS-90", "Milled sugar", "White", Hazards.CombustibleDust);
    private static readonly SpecificationDraft NoLimits = new([], Why);
    private static readonly MethodDraft NoSieves = new() { Procedure = SievingProcedure.NestedStack, Apertures = [], PortionLeast = default, PortionMost = default, Seconds = 0 };

    private static readonly TemplateDraft Look = new(PaperPlan.Usual, Why);
    private static readonly TemplateDraft NoLook = new(PaperPlan.Usual with { Blocks = [] }, Why);

    public static IReadOnlyList<Ability> All { get; } =
    [
        .. Cards,
        .. Methods,
        .. Authorisations,
        .. Specifications,
        .. Templates,
        .. Approving<Method, MethodVersion>(stage => stage.Get<MethodKeeping>().ReviseAsync(stage.People.LaboratoryManager.Actor, stage.Small.Calcite.MethodId, stage.Small.Calcite.Draft, null, default)),
        .. Approving<Specification, SpecificationVersion>(stage => stage.Get<SpecificationKeeping>().ReviseAsync(stage.People.LaboratoryManager.Actor, stage.Small.Calcite.SpecificationId, stage.Small.Calcite.Limits, null, default)),
        .. Approving<CertificateTemplate, CertificateTemplateVersion>(stage => stage.Get<TemplateKeeping>().ReviseAsync(stage.People.LaboratoryManager.Actor, CertificateTemplate.StandardId, Look, null, default)),
    ];

    private static IEnumerable<Ability> Cards =>
    [
        Does("customers.add", Who.LaboratoryManager, "customer-incomplete", (stage, who) => stage.Get<CustomerKeeping>().AddAsync(who, Nobody, null, default),
            stage => () => stage.Get<CustomerKeeping>().AddAsync(Manager(stage), Halvard, null, default)),
        Does("customers.change", Who.LaboratoryManager, "not-found", (stage, who) => stage.Get<CustomerKeeping>().ChangeAsync(who, Nothing, Halvard, Why, 1, default),
            stage => () => stage.Get<CustomerKeeping>().ChangeAsync(Manager(stage), stage.Small.Customer, Halvard, Why, 1, default)),
        Reads(Who.Staff, (stage, who) => stage.Get<CustomerKeeping>().AllAsync(who, default)),
        Reads(Who.Staff, (stage, who) => stage.Get<CustomerKeeping>().FindAsync(who, Nothing, default)),
        Does("products.add", Who.LaboratoryManager, "product-incomplete", (stage, who) => stage.Get<ProductKeeping>().AddAsync(who, NoProduct, null, default),
            stage => () => stage.Get<ProductKeeping>().AddAsync(Manager(stage), Sugar, null, default)),
        Does("products.change", Who.LaboratoryManager, "not-found", (stage, who) => stage.Get<ProductKeeping>().ChangeAsync(who, Nothing, Sugar, Why, 1, default),
            stage => () => stage.Get<ProductKeeping>().ChangeAsync(Manager(stage), stage.Small.Spice.ProductId, Sugar, Why, 1, default)),
        Reads(Who.Staff, (stage, who) => stage.Get<ProductKeeping>().AllAsync(who, default)),
    ];

    private static IEnumerable<Ability> Methods =>
    [
        Does("methods.write", Writers, "not-found", (stage, who) => stage.Get<MethodKeeping>().WriteAsync(who, "M-NEW", "New", Nothing, NoSieves, null, default),
            stage => () => stage.Get<MethodKeeping>().WriteAsync(Manager(stage), "M-NEW", "New", stage.Small.Calcite.ProductId, stage.Small.Calcite.Draft, null, default)),
        Does("methods.revise", Writers, "not-found", (stage, who) => stage.Get<MethodKeeping>().ReviseAsync(who, Nothing, NoSieves, null, default),
            stage => () => stage.Get<MethodKeeping>().ReviseAsync(Manager(stage), stage.Small.Calcite.MethodId, stage.Small.Calcite.Draft, null, default)),
        Reads(Who.Staff, (stage, who) => stage.Get<MethodKeeping>().AllAsync(who, default)),
        Reads(Who.Staff, (stage, who) => stage.Get<MethodKeeping>().InForceAsync(who, Nothing, default)),
    ];

    private static IEnumerable<Ability> Authorisations =>
    [
        Does("methods.authorise", Who.LaboratoryManager, "not-found", (stage, who) => stage.Get<MethodAuthorising>().AuthoriseAsync(who, Nothing, Nothing, Why, NextYear, default),
            stage => () => AuthoriseAsync(stage)),
        Does("methods.withdraw-authorisation", Who.LaboratoryManager, "not-found", (stage, who) => stage.Get<MethodAuthorising>().WithdrawAsync(who, Nothing, Why, 1, default), async stage =>
        {
            var given = await AuthoriseAsync(stage);
            return () => stage.Get<MethodAuthorising>().WithdrawAsync(Manager(stage), given, Why, 1, default);
        }),
        Does("methods.allow-unauthorised", Who.QualityManager, "not-found", (stage, who) => stage.Get<AuthorisationOverriding>().AllowAsync(who, Nothing, Nothing, Why, NoProof, default), async stage =>
        {
            var lot = await stage.Small.BookInAsync(await stage.Small.WithMethodAsync(stage.Small.Calcite, draft => draft with { AuthorisationNeeded = true }));
            var proof = await stage.Small.ProofAsync(stage.People.QualityManager);
            return () => stage.Get<AuthorisationOverriding>().AllowAsync(stage.People.QualityManager.Actor, lot.RunId, stage.People.Technician.Id, Why, proof, default);
        }),
        Reads(Who.Staff | Who.Administrator, (stage, who) => stage.Get<MethodAuthorising>().OfMethodAsync(who, Nothing, default)),
        Reads(Who.Staff | Who.Administrator, (stage, who) => stage.Get<MethodAuthorising>().OfPersonAsync(who, Nothing, default)),
        Reads(Who.Staff | Who.Administrator, (stage, who) => stage.Get<MethodAuthorising>().PeopleAsync(who, default)),
        Reads(Who.Staff, (stage, who) => stage.Get<AuthorisationOverriding>().MissingAsync(who, Nothing, default)),
        Reads(Who.Staff, (stage, who) => stage.Get<AuthorisationOverriding>().OfMethodAsync(who, Nothing, default)),
        Reads(Who.Staff, (stage, who) => stage.Get<AuthorisationOverriding>().OpenRunsAsync(who, Nothing, default)),
    ];

    private static IEnumerable<Ability> Specifications =>
    [
        Does("specifications.write", Writers, "not-found", (stage, who) => stage.Get<SpecificationKeeping>().WriteAsync(who, "SP-NEW", "New", Nothing, null, NoLimits, null, default),
            stage => () => stage.Get<SpecificationKeeping>().WriteAsync(Manager(stage), "SP-NEW", "New", stage.Small.Calcite.ProductId, stage.Small.Customer, stage.Small.Calcite.Limits, null, default)),
        Does("specifications.revise", Writers, "not-found", (stage, who) => stage.Get<SpecificationKeeping>().ReviseAsync(who, Nothing, NoLimits, null, default),
            stage => () => stage.Get<SpecificationKeeping>().ReviseAsync(Manager(stage), stage.Small.Calcite.SpecificationId, stage.Small.Calcite.Limits, null, default)),
        Reads(Who.Staff, (stage, who) => stage.Get<SpecificationKeeping>().AllAsync(who, default)),
        Reads(Who.Staff, (stage, who) => stage.Get<ProductTrendReading>().OfAsync(who, Nothing, default)),
        Reads(Who.Staff, (stage, who) => stage.Get<DraftScoring>().OfAsync(who, Nothing, Array.Empty<LimitDraft>(), default)),
        Reads(Who.Staff, (stage, who) => stage.Get<NarrowLimits>().OfAsync(who, stage.Small.Calcite.SpecificationId, default)),
        Reads(Who.Staff, (stage, who) => stage.Get<SpecificationKeeping>().InForceAsync(who, Nothing, default)),
    ];

    private static IEnumerable<Ability> Templates =>
    [
        Does("certificate-templates.write", Writers, "certificate-template", (stage, who) => stage.Get<TemplateKeeping>().WriteAsync(who, "CT-NEW", "New", NoLook, null, default),
            stage => () => stage.Get<TemplateKeeping>().WriteAsync(Manager(stage), "CT-NEW", "New", Look, null, default)),
        Does("certificate-templates.revise", Writers, "not-found", (stage, who) => stage.Get<TemplateKeeping>().ReviseAsync(who, Nothing, Look, null, default),
            stage => () => stage.Get<TemplateKeeping>().ReviseAsync(Manager(stage), CertificateTemplate.StandardId, Look, null, default)),
        Reads(Who.Staff, (stage, who) => stage.Get<TemplateKeeping>().AllAsync(who, default)),
        Reads(Who.Staff, (stage, who) => stage.Get<TemplateKeeping>().FindAsync(who, CertificateTemplate.StandardId, default)),
        Reads(Who.Staff, (stage, who) => stage.Get<TemplateKeeping>().LogoAsync(who, "none", default)),
        Reads(Who.Staff, (stage, who) => stage.Get<TemplatePreview>().OfVersionAsync(who, Nothing, "en", "A4", default)),
        Reads(Writers, (stage, who) => stage.Get<TemplatePreview>().OfDraftAsync(who, Look, "en", "A4", default)),
    ];

    private static IEnumerable<Ability> Approving<TDocument, TVersion>(Func<Stage, Task<Guid>> draftAsync)
        where TDocument : class, IControlledDocument
        where TVersion : ControlledVersion =>
    [
        Does("documents.hand-over", Writers, "not-found", (stage, who) => stage.Get<DocumentApproval<TDocument, TVersion>>().HandOverAsync(who, Nothing, 1, default), async stage =>
        {
            var draft = await draftAsync(stage);
            return () => stage.Get<DocumentApproval<TDocument, TVersion>>().HandOverAsync(Manager(stage), draft, 1, default);
        }),
        Does("documents.hand-back", Approvers, "not-found", (stage, who) => stage.Get<DocumentApproval<TDocument, TVersion>>().HandBackAsync(who, Nothing, Why, 1, default), async stage =>
        {
            var draft = await HandedOverAsync<TDocument, TVersion>(stage, draftAsync);
            return () => stage.Get<DocumentApproval<TDocument, TVersion>>().HandBackAsync(stage.People.QualityManager.Actor, draft, "The portion is too small", 2, default);
        }),
        Does("documents.approve", Approvers, "not-found", (stage, who) => stage.Get<DocumentApproval<TDocument, TVersion>>().ApproveAsync(who, Nothing, null, NoProof, 1, default), async stage =>
        {
            var draft = await HandedOverAsync<TDocument, TVersion>(stage, draftAsync);
            var proof = await stage.Small.ProofAsync(stage.People.QualityManager);
            return () => stage.Get<DocumentApproval<TDocument, TVersion>>().ApproveAsync(stage.People.QualityManager.Actor, draft, stage.Small.InAYear, proof, 2, default);
        }),
    ];

    private static async Task<Guid> HandedOverAsync<TDocument, TVersion>(Stage stage, Func<Stage, Task<Guid>> draftAsync)
        where TDocument : class, IControlledDocument
        where TVersion : ControlledVersion
    {
        var draft = await draftAsync(stage);
        await stage.Get<DocumentApproval<TDocument, TVersion>>().HandOverAsync(Manager(stage), draft, 1, default);
        return draft;
    }

    private static Task<Guid> AuthoriseAsync(Stage stage) =>
        stage.Get<MethodAuthorising>().AuthoriseAsync(Manager(stage), stage.People.Technician.Id, stage.Small.Calcite.MethodId, "Three runs beside Ruth Vale", NextYear, default);

    private static Actor Manager(Stage stage) => stage.People.LaboratoryManager.Actor;
}
