using Microsoft.Extensions.DependencyInjection;
using ParticleLims.Analysis.Quantities;
using ParticleLims.Laboratory.Cautions;
using ParticleLims.Laboratory.Documents;
using ParticleLims.Laboratory.Lots;
using ParticleLims.Laboratory.Methods;
using ParticleLims.Laboratory.People;
using ParticleLims.Laboratory.Products;
using ParticleLims.Laboratory.Record;
using ParticleLims.Laboratory.Samples;
using ParticleLims.Laboratory.Settings;
using ParticleLims.Laboratory.Specifications;
using ParticleLims.Laboratory.Terminals;

namespace ParticleLims.TestLaboratory.SmallLaboratories;

/// <summary>
/// A small laboratory of the invented Tarnfell Milling, ready for work: a person of every role, two customers, a product for each of
/// the three procedures with method and specification approved, sieves in service, one balance in service and checked today.
/// </summary>
public sealed class SmallLaboratory
{
    /// <summary>How the identity of its people was verified.</summary>
    public static readonly IdentitySeen SeenInPerson = new("Ada Field", "Passport, in person", new DateOnly(2026, 1, 5));

    private int lots;

    internal SmallLaboratory(IServiceProvider services, SmallLaboratoryContents contents) => (Services, Contents) = (services, contents);

    /// <summary>The laboratory's services.</summary>
    public IServiceProvider Services { get; }

    /// <summary>Everybody.</summary>
    public TestPeople People => Contents.People;

    /// <summary>Ground calcite GC-45 by carried residue on 20, 32, 45 and 63 µm, one replicate; passing 45 µm at least 97 %, D50 from 20 to 30 µm.</summary>
    public TestMethod Calcite => Contents.Calcite;

    /// <summary>Pea starch PS-63 by separate portions on 32 and 63 µm, two replicates; passing 63 µm at least 95 %; sampled in 5 increments, at least 200 g.</summary>
    public TestMethod Starch => Contents.Starch;

    /// <summary>A dry-blended spice SB-500 by a nested stack of 125, 250 and 500 µm; retained on 500 µm at most 5 %, alert above 4.5 %.</summary>
    public TestMethod Spice => Contents.Spice;

    /// <summary>Veldt Surface Coatings, whose contact is one of the <see cref="People"/>.</summary>
    public Guid Customer => Contents.Customer;

    /// <summary>Orrin Baking Supplies.</summary>
    public Guid OtherCustomer => Contents.OtherCustomer;

    /// <summary>The balance: 1 mg, 620 g, check weight 100 g.</summary>
    public Guid BalanceId => Contents.BalanceId;

    internal SmallLaboratoryContents Contents { get; }

    /// <summary>Sets the small laboratory up in an empty one, through the same services as people do.</summary>
    /// <param name="services">Those of a laboratory that is opened but not set up.</param>
    /// <param name="sievingSeconds">Where the clock cannot be set: the seconds that each method sieves instead of its usual minutes.</param>
    public static async Task<SmallLaboratory> SetUpAsync(IServiceProvider services, int? sievingSeconds = null) =>
        new(services, await new SmallLaboratorySetUp(services, sievingSeconds).RunAsync());

    /// <summary>A day on which something may fall due: a year from now.</summary>
    public DateOnly InAYear => DateOnly.FromDateTime(Get<TimeProvider>().GetUtcNow().UtcDateTime.AddYears(1));

    /// <summary>A service of the laboratory.</summary>
    public T Get<T>()
        where T : notnull => Services.GetRequiredService<T>();

    /// <summary>The person's password given again, for one signature.</summary>
    public Task<SecretProof> ProofAsync(TestPerson person) => Get<ISecretCheck>().ProveAsync(person.Actor, person.Password, CancellationToken.None);

    /// <summary>A new version of a method, written by the laboratory manager and approved by the quality manager.</summary>
    public async Task<TestMethod> WithMethodAsync(TestMethod method, Func<MethodDraft, MethodDraft> change)
    {
        ArgumentNullException.ThrowIfNull(method);
        ArgumentNullException.ThrowIfNull(change);
        var draft = change(method.Draft) with { WhatChanged = "As this test asks" };
        var version = await Get<MethodKeeping>().ReviseAsync(People.LaboratoryManager.Actor, method.MethodId, draft, null, CancellationToken.None);
        var approval = Get<DocumentApproval<Method, MethodVersion>>();
        await approval.HandOverAsync(People.LaboratoryManager.Actor, version, 1, CancellationToken.None);
        await approval.ApproveAsync(People.QualityManager.Actor, version, null, await ProofAsync(People.QualityManager), 2, CancellationToken.None);
        return method with { MethodVersionId = version, Draft = draft };
    }

    /// <summary>A new version of a specification, written by the laboratory manager and approved by the quality manager.</summary>
    public async Task<TestMethod> WithSpecificationAsync(TestMethod method, Func<SpecificationDraft, SpecificationDraft> change)
    {
        ArgumentNullException.ThrowIfNull(method);
        ArgumentNullException.ThrowIfNull(change);
        var draft = change(method.Limits) with { WhatChanged = "As this test asks" };
        var version = await Get<SpecificationKeeping>().ReviseAsync(People.LaboratoryManager.Actor, method.SpecificationId, draft, null, CancellationToken.None);
        var approval = Get<DocumentApproval<Specification, SpecificationVersion>>();
        await approval.HandOverAsync(People.LaboratoryManager.Actor, version, 1, CancellationToken.None);
        await approval.ApproveAsync(People.QualityManager.Actor, version, null, await ProofAsync(People.QualityManager), 2, CancellationToken.None);
        return method with { SpecificationVersionId = version, Limits = draft };
    }

    /// <summary>Books in a lot and its sample; its runs are planned.</summary>
    public Task<TestLot> BookInAsync(TestMethod method, Guid? customer = null) => TestLot.BookInAsync(this, method, customer);

    /// <summary>Books in a lot with a number of its own, for <see cref="Customer"/> where no other is named.</summary>
    public Task<Guid> BookInLotAsync(TestMethod method, Guid? customer = null)
    {
        var number = $"L-{Interlocked.Increment(ref lots):0000}";
        var lot = new NewLot(number, method.ProductId, customer ?? Customer, new LotParticulars(1250.5m, DateOnly.FromDateTime(Get<TimeProvider>().GetUtcNow().UtcDateTime.AddDays(-1)), "PO 7781"));
        return Get<LotReception>().BookInAsync(People.Technician.Actor, lot, null, CancellationToken.None);
    }

    /// <summary>What is written when a sample of the lot is booked in.</summary>
    public NewSample NewSample(Guid lotId, TestMethod method)
    {
        var taken = Get<TimeProvider>().GetUtcNow().AddHours(-1);
        return new NewSample(lotId, method.MethodVersionId, method.SpecificationVersionId, new SampleParticulars(
            taken, "Milling shift B", "Scoop, 5 increments over the run-off", "White powder in a sealed jar", "Sealed, dry", SampleDivision.RotaryDivider, Increments: 5, Mass: Mass.FromGrams(300m)));
    }

    /// <summary>Books in a sample of the lot; its runs are planned.</summary>
    public Task<SampleBookedIn> BookInSampleAsync(Guid lotId, TestMethod method) =>
        Get<SampleReception>().BookInAsync(People.Technician.Actor, NewSample(lotId, method), null, CancellationToken.None);

    /// <summary>Twenty accepted runs of the spice, of which some 2 % stay on 500 µm: enough to know what is usual.</summary>
    public async Task MakeHistoryAsync()
    {
        for (var index = 0; index < 20; index++)
        {
            await (await (await BookInAsync(Spice)).SubmitAsync(Powder.SpiceCoarser(2m + (0.1m * ((index * 7 % 5) - 2))))).AcceptAsync();
        }
    }

    /// <summary>The administrator gives a person exactly these roles.</summary>
    public async Task GiveRolesAsync(TestPerson person, params Role[] roles)
    {
        ArgumentNullException.ThrowIfNull(person);
        var accounts = Get<Accounts>();
        if (roles.Any(role => role.Signs()) && (await accounts.IdentityChecksAsync(People.Administrator.Actor, person.Id, CancellationToken.None)).Count == 0)
        {
            await accounts.CheckIdentityAsync(People.Administrator.Actor, person.Id, SeenInPerson, CancellationToken.None);
        }

        var version = (await accounts.AllAsync(People.Administrator.Actor, CancellationToken.None)).Single(row => row.Id == person.Id).Version;
        await accounts.SetRolesAsync(People.Administrator.Actor, person.Id, roles, "Stands in for a while", version, CancellationToken.None);
    }

    /// <summary>The administrator enrols a shared terminal.</summary>
    public async Task<TestTerminal> EnrolAsync(string name, bool hasScanner = true)
    {
        var register = Get<TerminalRegister>();
        var secret = await register.EnrolAsync(People.Administrator.Actor, new TerminalCard(name, "Sieving room", hasScanner), CancellationToken.None);
        return new TestTerminal(this, secret, (await register.RecogniseAsync(secret, CancellationToken.None))!);
    }

    /// <summary>A person sets their PIN.</summary>
    public async Task SetPinAsync(TestPerson person, string pin)
    {
        ArgumentNullException.ThrowIfNull(person);
        await Get<Accounts>().SetPinAsync(person.Actor, await ProofAsync(person), pin, CancellationToken.None);
    }

    /// <summary>A person reads the cautions for every procedure with combustible dust.</summary>
    public async Task ReadCautionsAsync(TestPerson person)
    {
        ArgumentNullException.ThrowIfNull(person);
        await Get<CautionReading>().AcknowledgeAsync(person.Actor, Hazards.CombustibleDust, SievingProcedure.NestedStack, CancellationToken.None);
        if ((await Get<CautionReading>().OpenAsync(person.Actor, Hazards.CombustibleDust, SievingProcedure.CarriedResidue, CancellationToken.None)).Count > 0)
        {
            await Get<CautionReading>().AcknowledgeAsync(person.Actor, Hazards.CombustibleDust, SievingProcedure.CarriedResidue, CancellationToken.None);
        }
    }

    /// <summary>The administrator lets one person do everything, or ends that.</summary>
    public async Task SwitchOnePersonAsync(bool onePerson = true)
    {
        var settings = (await Get<SettingsKeeping>().FindAsync(CancellationToken.None))!;
        await Get<SettingsKeeping>().SwitchOnePersonAsync(People.Administrator.Actor, onePerson, onePerson ? "Only one of us is left" : "There are two of us again", await ProofAsync(People.Administrator), settings.Version, CancellationToken.None);
    }

    /// <summary>The administrator lets masses be keyed by hand.</summary>
    public async Task AllowKeyingAsync()
    {
        var settings = (await Get<SettingsKeeping>().FindAsync(CancellationToken.None))!;
        await Get<SettingsKeeping>().SwitchKeyingAsync(People.Administrator.Actor, true, "The balance's cable is awaited", settings.Version, CancellationToken.None);
    }

    /// <summary>The desks of the reviewer and the quality manager.</summary>
    public TestDesk Desk => new(this);

    /// <summary>The technician's bench.</summary>
    public TestBench Bench() => Bench(People.Technician);

    /// <summary>A bench at which somebody works.</summary>
    public TestBench Bench(TestPerson person) => new(this, person.Actor);
}
