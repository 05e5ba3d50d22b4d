using ParticleLims.Laboratory.Customers;
using ParticleLims.Laboratory.Demonstration.Model;
using ParticleLims.Laboratory.Demonstration.Time;
using ParticleLims.Laboratory.Documents;
using ParticleLims.Laboratory.Methods;
using ParticleLims.Laboratory.Products;
using ParticleLims.Laboratory.Specifications;
using ParticleLims.Laboratory.Templates;

namespace ParticleLims.Laboratory.Demonstration;

/// <summary>Customers, products, methods and specifications of the demonstration, and which version is in force.</summary>
internal sealed class Catalogue(
    CustomerKeeping customerKeeping, ContactKeeping contactKeeping, ProductKeeping productKeeping, MethodKeeping methodKeeping, MethodAuthorising authorising, SpecificationKeeping specificationKeeping,
    DocumentApproval<Method, MethodVersion> methodApproval, DocumentApproval<Specification, SpecificationVersion> specificationApproval,
    TemplateKeeping templateKeeping, DocumentApproval<CertificateTemplate, CertificateTemplateVersion> templateApproval, Crew crew, HistoryClock clock)
{
    public const string Orrin = "Orrin Baking Supplies";
    public const string Veldt = "Veldt Surface Coatings";
    public const string Halvard = "Halvard Nutrition";

    private readonly Dictionary<string, Guid> customers = new(StringComparer.Ordinal);
    private readonly Dictionary<string, Guid> products = new(StringComparer.Ordinal);
    private readonly Dictionary<string, (Guid Version, MethodDraft Draft)> methods = new(StringComparer.Ordinal);
    private readonly Dictionary<string, Guid> specifications = new(StringComparer.Ordinal);

    /// <summary>The customers by name.</summary>
    public IReadOnlyDictionary<string, Guid> Customers => customers;

    /// <summary>A product's key.</summary>
    public Guid ProductOf(ProductLine line) => products[line.Code];

    /// <summary>The method in force.</summary>
    public (Guid Version, MethodDraft Draft) MethodOf(ProductLine line) => methods[line.Code];

    /// <summary>The specification in force for a customer: its own where there is one.</summary>
    public Guid SpecificationOf(ProductLine line, string? customer) =>
        specifications.TryGetValue($"{line.Code}/{customer}", out var own) ? own : specifications[line.Code];

    /// <summary>Writes and approves all of it as it was at the beginning.</summary>
    public async Task WriteAsync(CancellationToken cancellation)
    {
        await AddCustomersAsync(cancellation);
        foreach (var line in ProductLine.All)
        {
            var manager = crew.LaboratoryManager.Actor;
            products[line.Code] = await productKeeping.AddAsync(manager, new ProductCard(line.Code, line.Name, line.Description, line.Hazards, line.Density) { Identification = line.Identification }, null, cancellation);
            var method = await methodKeeping.WriteAsync(crew.Reviewers[0].Actor, "M-" + line.Code, line.MethodTitle, products[line.Code], line.Method, null, cancellation);
            await ApproveMethodAsync(line, method, line.Method, cancellation);
            var draft = new SpecificationDraft(line.Limits) { Sampling = line.Sampling, Combination = line.Combination };
            var specification = await specificationKeeping.WriteAsync(manager, "SP-" + line.Code, line.Name, products[line.Code], null, draft, null, cancellation);
            await ApproveSpecificationAsync(line.Code, specification, cancellation);
        }

        await AddVeldtSpecificationAsync(cancellation);
    }

    /// <summary>The people at the bench are found able for each method: one of the authorisations ends soon after the end of the history, one has ended.</summary>
    public async Task AuthoriseAsync(DateTimeOffset end, CancellationToken cancellation)
    {
        var last = WorkingTime.DayOf(end);
        foreach (var page in await methodKeeping.AllAsync(crew.LaboratoryManager.Actor, cancellation))
        {
            foreach (var (member, at) in crew.Technicians.Concat(crew.Reviewers).Select((member, at) => (member, at)))
            {
                var until = (page.Product.Code, at) switch
                {
                    ("SB-500", 2) => last.AddDays(18),
                    ("MS-90", 4) => last.AddDays(-20),
                    _ => last.AddDays(120 + (30 * at)),
                };
                await authorising.AuthoriseAsync(crew.LaboratoryManager.Actor, member.Id, page.Method.Id, "Read the method; three runs beside an experienced person, every passing within 1.0 percentage point", until, cancellation);
                clock.Pass(20);
            }
        }
    }

    /// <summary>Half a year on the sugar's sieving time was too short: its method has a second version.</summary>
    public async Task RaiseSugarTimeAsync(CancellationToken cancellation)
    {
        var line = ProductLine.Of("MS-90");
        var draft = line.Method with { Seconds = 120, WhatChanged = "120 s instead of 90 s on each sieve: after 90 s the residue at 45 µm still lost 0.4 % of the portion in a minute" };
        await ApproveMethodAsync(line, await ReviseMethodAsync(line, draft, cancellation), draft, cancellation);
    }

    /// <summary>The calcite's general specification is narrowed to what the mill keeps.</summary>
    public async Task NarrowCalciteAsync(CancellationToken cancellation)
    {
        var slope = new LimitDraft(LimitCharacteristic.RosinRammlerSlope, 1.5m, 2.4m, 2, Printed: false);
        var draft = new SpecificationDraft([ProductLine.Size(50, 38, 48) with { LowerAlert = 41, UpperAlert = 44.8m }, ProductLine.Passing(63, 70, null), ProductLine.Passing(90, 90, null), slope], "D50 narrowed from 36 to 50 µm to 38 to 48 µm, with alert limits; passing 63 µm and the slope added")
        {
            Sampling = ProductLine.Of("GC-45").Sampling,
        };
        await ApproveSpecificationAsync("GC-45", await ReviseSpecificationAsync("GC-45", draft, cancellation), cancellation);
    }

    /// <summary>Near the end two drafts wait for approval.</summary>
    public async Task DraftTheNextAsync(CancellationToken cancellation)
    {
        var starch = ProductLine.Of("PS-63");
        var method = await ReviseMethodAsync(starch, starch.Method with { Seconds = 180, Replicates = 2, RepeatabilityLimitPercent = 2m, WhatChanged = "Two replicates and 180 s, as agreed with Halvard Nutrition" }, cancellation);
        await methodApproval.HandOverAsync(crew.Reviewers[0].Actor, method, 1, cancellation);
        clock.Pass(600);
        var draft = new SpecificationDraft([ProductLine.Size(50, 54, 59) with { LowerAlert = 55, UpperAlert = 58 }, ProductLine.Passing(90, 77, null), ProductLine.Passing(125, 94, null)], "D50 narrowed to 54 to 59 µm with alert limits at 55 and 58 µm, two determinations, as Orrin Baking Supplies asked")
        {
            Determinations = 2, Sampling = new SamplingPlan { Increments = 12, Procedure = "spiral sampler before bagging", LeastMass = Analysis.Quantities.Mass.FromGrams(250m), ToRecord = "the relative humidity at the mill" },
        };
        var specification = await ReviseSpecificationAsync("MS-90", draft, cancellation);
        await specificationApproval.HandOverAsync(crew.LaboratoryManager.Actor, specification, 1, cancellation);
    }

    private async Task AddCustomersAsync(CancellationToken cancellation)
    {
        CustomerCard[] cards =
        [
            new(Orrin, "Orrin Baking Supplies\nGoods In\nOld Granary Row 12\nPelham Quay", "goods-in@orrin.example"),
            new(Veldt, "Veldt Surface Coatings\nIncoming Inspection\nPigment Street 3\nCalder Moor", "incoming@veldt.example"),
            new(Halvard, "Halvard Nutrition\nQuality\nHarbour Works 7\nSkerrow", "quality@halvard.example"),
        ];
        foreach (var card in cards)
        {
            customers[card.Name] = await customerKeeping.AddAsync(crew.LaboratoryManager.Actor, card, null, cancellation);
            clock.Pass(120);
        }
    }

    /// <summary>Who gets the certificates that are issued from now on by mail; they are queued once somebody sets a mail server.</summary>
    public async Task AddContactsAsync(CancellationToken cancellation)
    {
        (string Customer, ContactCard Card)[] contacts =
        [
            (Orrin, new ContactCard("Goods In", "goods-in@orrin.example", null, true)),
            (Orrin, new ContactCard("Petra Wickstead", "petra.wickstead@orrin.example", null, false)),
            (Veldt, new ContactCard("Incoming Inspection", "incoming@veldt.example", "de", true)),
            (Halvard, new ContactCard("Quality", "quality@halvard.example", null, true)),
        ];
        foreach (var (customer, card) in contacts)
        {
            await contactKeeping.AddAsync(crew.LaboratoryManager.Actor, customers[customer], card, null, cancellation);
        }
    }

    /// <summary>The certificates that Veldt gets from now on have a logo, texts of their own, and the signatures before the curve.</summary>
    public async Task AddVeldtTemplateAsync(CancellationToken cancellation)
    {
        var manager = crew.LaboratoryManager.Actor;
        var plan = new PaperPlan
        {
            Logo = new PaperLogo(string.Empty, 0, 0, "The mill wheel of Tarnfell Milling"), Omitted = [PaperField.WholeHeadHash], Uncertainty = true,
            Blocks = [PaperBlock.Particulars, PaperBlock.Results, PaperBlock.Testing, PaperBlock.Notes, PaperBlock.Signatures, PaperBlock.Sieves, PaperBlock.Net],
            Texts =
            [
                new PaperTexts("en") { Storage = "Keep dry and closed, away from acids.", Safety = "Hazards: see safety data sheet SDS-GC-45 of the mill." },
                new PaperTexts("de") { Storage = "Trocken und geschlossen lagern, fern von Säuren.", Safety = "Gefahren: siehe Sicherheitsdatenblatt SDS-GC-45 der Mühle." },
            ],
        };
        var version = await templateKeeping.WriteAsync(manager, "CT-VELDT", "Certificates for Veldt Surface Coatings", new TemplateDraft(plan, "First version, as agreed with Veldt Surface Coatings") { Picture = MillWheel() }, null, cancellation);
        await templateApproval.HandOverAsync(manager, version, 1, cancellation);
        await templateApproval.ApproveAsync(crew.QualityManager.Actor, version, null, await crew.ProveAsync(crew.QualityManager, cancellation), 2, cancellation);
        var template = (await templateKeeping.AllAsync(manager, cancellation)).Single(page => page.Template.Code == "CT-VELDT").Template.Id;
        var veldt = (await customerKeeping.FindAsync(manager, customers[Veldt], cancellation))!;
        await customerKeeping.ChangeAsync(manager, veldt.Id, new CustomerCard(veldt.Name, veldt.Address, veldt.Contact) { Certificates = veldt.Certificates with { Template = template } }, "As agreed with Veldt Surface Coatings", veldt.Version, cancellation);
    }

    private static byte[] MillWheel()
    {
        using var stream = typeof(Catalogue).Assembly.GetManifestResourceStream(typeof(Catalogue), "mill-wheel.png")!;
        using var memory = new MemoryStream();
        stream.CopyTo(memory);
        return memory.ToArray();
    }

    private async Task AddVeldtSpecificationAsync(CancellationToken cancellation)
    {
        var draft = new SpecificationDraft([ProductLine.Size(50, 40, 46) with { LowerAlert = 41, UpperAlert = 44.8m }, ProductLine.Passing(63, 70, null), ProductLine.Passing(90, 92, null) with { Rule = LimitRule.Guarded }], "First version, as agreed with Veldt Surface Coatings")
        {
            Sampling = ProductLine.Of("GC-45").Sampling,
        };
        var version = await specificationKeeping.WriteAsync(crew.LaboratoryManager.Actor, "SP-GC-45-VELDT", "Ground calcite 45 for Veldt Surface Coatings", products["GC-45"], customers[Veldt], draft, null, cancellation);
        await ApproveSpecificationAsync($"GC-45/{Veldt}", version, cancellation);
    }

    private async Task<Guid> ReviseMethodAsync(ProductLine line, MethodDraft draft, CancellationToken cancellation)
    {
        var author = crew.Reviewers[0].Actor;
        var page = (await methodKeeping.AllAsync(author, cancellation)).Single(page => page.Product.Code == line.Code);
        return await methodKeeping.ReviseAsync(author, page.Method.Id, draft, null, cancellation);
    }

    private async Task<Guid> ReviseSpecificationAsync(string product, SpecificationDraft draft, CancellationToken cancellation)
    {
        var author = crew.LaboratoryManager.Actor;
        var page = (await specificationKeeping.AllAsync(author, cancellation)).Single(page => page.Specification.Code == "SP-" + product);
        return await specificationKeeping.ReviseAsync(author, page.Specification.Id, draft, null, cancellation);
    }

    private async Task ApproveMethodAsync(ProductLine line, Guid version, MethodDraft draft, CancellationToken cancellation)
    {
        clock.Pass(300);
        await methodApproval.HandOverAsync(crew.Reviewers[0].Actor, version, 1, cancellation);
        clock.Pass(300);
        await methodApproval.ApproveAsync(crew.LaboratoryManager.Actor, version, null, await crew.ProveAsync(crew.LaboratoryManager, cancellation), 2, cancellation);
        methods[line.Code] = (version, draft);
    }

    private async Task ApproveSpecificationAsync(string key, Guid version, CancellationToken cancellation)
    {
        clock.Pass(300);
        await specificationApproval.HandOverAsync(crew.LaboratoryManager.Actor, version, 1, cancellation);
        clock.Pass(300);
        await specificationApproval.ApproveAsync(crew.QualityManager.Actor, version, null, await crew.ProveAsync(crew.QualityManager, cancellation), 2, cancellation);
        specifications[key] = version;
    }
}
