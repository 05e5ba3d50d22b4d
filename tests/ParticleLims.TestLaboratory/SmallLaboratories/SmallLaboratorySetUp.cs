using Microsoft.Extensions.DependencyInjection;
using ParticleLims.Analysis.Quantities;
using ParticleLims.Laboratory.Balances;
using ParticleLims.Laboratory.Customers;
using ParticleLims.Laboratory.Documents;
using ParticleLims.Laboratory.Equipment;
using ParticleLims.Laboratory.Methods;
using ParticleLims.Laboratory.People;
using ParticleLims.Laboratory.Products;
using ParticleLims.Laboratory.Record;
using ParticleLims.Laboratory.Settings;
using ParticleLims.Laboratory.Sieves;
using ParticleLims.Laboratory.Signatures;
using ParticleLims.Laboratory.Specifications;

namespace ParticleLims.TestLaboratory.SmallLaboratories;

/// <summary>Sets a small laboratory up, deed by deed.</summary>
internal sealed class SmallLaboratorySetUp(IServiceProvider services, int? sievingSeconds)
{
    private static readonly CancellationToken None = CancellationToken.None;
    private readonly DateOnly dueOn = DateOnly.FromDateTime(services.GetRequiredService<TimeProvider>().GetUtcNow().UtcDateTime.AddYears(1));

    public async Task<SmallLaboratoryContents> RunAsync()
    {
        var administrator = await OpenAsync();
        var manager = await PersonAsync(administrator, "lena.hollow", "Lena Hollow", Role.LaboratoryManager);
        var customer = await CustomerAsync(manager, "Veldt Surface Coatings");
        var people = await EverybodyAsync(administrator, manager, customer);
        return new SmallLaboratoryContents(
            people, customer, await CustomerAsync(manager, "Orrin Baking Supplies"), await BalanceAsync(people),
            await MethodAsync(people, ("GC-45", "Ground calcite"), TestMethods.Calcite, TestMethods.CalciteLimits),
            await MethodAsync(people, ("PS-63", "Pea starch"), TestMethods.Starch, TestMethods.StarchLimits),
            await MethodAsync(people, ("SB-500", "Dry-blended spice"), TestMethods.Spice, TestMethods.SpiceLimits));
    }

    private T Get<T>()
        where T : notnull => services.GetRequiredService<T>();

    private async Task<TestPerson> OpenAsync()
    {
        var setUp = Get<LaboratorySetUp>();
        var identity = new LaboratoryIdentity("Tarnfell Milling", "Mill Lane 1\nTarnfell", "laboratory@tarnfell.example", "Europe/Dublin", "http://localhost:5000");
        var link = await setUp.MakeLinkAsync(None);
        var id = await setUp.OpenAsync(link, identity, new NewPerson("ada.field", "Ada Field", [], PasswordOf("ada.field")), "T1", None);
        return await AcceptedAsync(new TestPerson(id, "ada.field", "Ada Field", PasswordOf("ada.field")));
    }

    private async Task<TestPerson> PersonAsync(TestPerson administrator, string name, string fullName, Role role, Guid? customer = null)
    {
        var person = new NewPerson(name, fullName, [role], PasswordOf(name), role == Role.Customer ? null : "482915", customer) { Identity = role.Signs() ? SmallLaboratory.SeenInPerson : null };
        var made = new TestPerson(await Get<Accounts>().CreateAsync(administrator.Actor, person, null, None), name, fullName, person.Password!);
        return role == Role.Customer ? made : await AcceptedAsync(made);
    }

    private async Task<TestPerson> AcceptedAsync(TestPerson person)
    {
        var policies = Get<SigningPolicies>();
        await policies.AcceptAsync(person.Actor, (await policies.FindAsync(None)).Number, await Get<ISecretCheck>().ProveAsync(person.Actor, person.Password, None), None);
        return person;
    }

    private async Task<TestPeople> EverybodyAsync(TestPerson administrator, TestPerson manager, Guid customer) => new()
    {
        Administrator = administrator,
        LaboratoryManager = manager,
        Technician = await PersonAsync(administrator, "tom.reed", "Tom Reed", Role.Technician),
        SecondTechnician = await PersonAsync(administrator, "nia.marsh", "Nia Marsh", Role.Technician),
        Reviewer = await PersonAsync(administrator, "ruth.vale", "Ruth Vale", Role.Reviewer),
        QualityManager = await PersonAsync(administrator, "quinn.ashby", "Quinn Ashby", Role.QualityManager),
        Customer = await PersonAsync(administrator, "vera.dale", "Vera Dale", Role.Customer, customer),
    };

    private Task<Guid> CustomerAsync(TestPerson manager, string name) =>
        Get<CustomerKeeping>().AddAsync(manager.Actor, new CustomerCard(name, "Harbour Road 7\nWestmere", "goods-in@customer.example"), null, None);

    private async Task<Guid> BalanceAsync(TestPeople people)
    {
        var card = new BalanceCard(
            "B-0417", "Bench 1", "Bench 1", Mass.FromGrams(0.001m), Mass.FromGrams(620m), Mass.FromGrams(0.001m), BalanceWay.OnNetwork("127.0.0.1", 4001), "Plain line", Mass.FromGrams(100m), Mass.FromGrams(0.002m));
        var id = await Get<BalanceRegister>().RegisterAsync(people.LaboratoryManager.Actor, card, null, None);
        await Get<EquipmentLife<Balance>>().CommissionAsync(people.LaboratoryManager.Actor, id, "Calibration certificate K-118", dueOn, 1, None);
        await Get<BalanceTesting>().CheckAsync(people.Technician.Actor, id, TestBench.Reading(id, 100m, Get<TimeProvider>().GetUtcNow()), CheckCircumstances.Ready, null, None);
        return id;
    }

    private async Task<TestMethod> MethodAsync(TestPeople people, (string Code, string Name) product, MethodDraft draft, SpecificationDraft limits)
    {
        var manager = people.LaboratoryManager.Actor;
        draft = sievingSeconds is { } seconds ? draft with { Seconds = seconds } : draft;
        var productId = await Get<ProductKeeping>().AddAsync(manager, new ProductCard(product.Code, product.Name, "Powder", Hazards.CombustibleDust), null, None);
        var methodVersion = await Get<MethodKeeping>().WriteAsync(manager, "M-" + product.Code, "Sieving of " + product.Name, productId, draft, null, None);
        var specificationVersion = await Get<SpecificationKeeping>().WriteAsync(manager, "SP-" + product.Code, product.Name + ", general", productId, null, limits, null, None);
        await ApproveAsync<Method, MethodVersion>(people, methodVersion);
        await ApproveAsync<Specification, SpecificationVersion>(people, specificationVersion);
        var method = (await Get<MethodKeeping>().AllAsync(manager, None)).Single(page => page.Product.Id == productId).Method.Id;
        var specification = (await Get<SpecificationKeeping>().AllAsync(manager, None)).Single(page => page.Product.Id == productId).Specification.Id;
        return new TestMethod(productId, product.Code, method, methodVersion, specification, specificationVersion, draft, limits, await SievesAsync(people, product.Code, draft));
    }

    private async Task ApproveAsync<TDocument, TVersion>(TestPeople people, Guid version)
        where TDocument : class, IControlledDocument
        where TVersion : ControlledVersion
    {
        var approval = Get<DocumentApproval<TDocument, TVersion>>();
        await approval.HandOverAsync(people.LaboratoryManager.Actor, version, 1, None);
        var proof = await Get<ISecretCheck>().ProveAsync(people.QualityManager.Actor, people.QualityManager.Password, None);
        await approval.ApproveAsync(people.QualityManager.Actor, version, null, proof, 2, None);
    }

    private async Task<IReadOnlyList<Guid>> SievesAsync(TestPeople people, string product, MethodDraft draft)
    {
        var ids = new List<Guid>();
        foreach (var aperture in draft.Apertures.Order())
        {
            var card = new SieveCard(FormattableString.Invariant($"TS-{product}-{aperture.Micrometres:000}"), aperture, 200, "ISO 3310-1:2016", "Rack A");
            var id = await Get<SieveRegister>().RegisterAsync(people.LaboratoryManager.Actor, card, null, None);
            await Get<EquipmentLife<TestSieve>>().CommissionAsync(people.LaboratoryManager.Actor, id, "Inspection certificate", dueOn, 1, None);
            ids.Add(id);
        }

        return ids;
    }

    private static string PasswordOf(string name) => $"{name[..3]} nine copper lamps hum";
}
