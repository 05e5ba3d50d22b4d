using ParticleLims.Laboratory.Demonstration.Time;
using ParticleLims.Laboratory.People;
using ParticleLims.Laboratory.Record;
using ParticleLims.Laboratory.Settings;
using ParticleLims.Laboratory.Signatures;
using ParticleLims.Laboratory.Terminals;

namespace ParticleLims.Laboratory.Demonstration;

/// <summary>A person of the demonstration at work.</summary>
internal sealed record Member(DemonstrationPerson Card, Guid Id, string Terminal)
{
    /// <summary>Who acts.</summary>
    public Actor Actor { get; } = new(Id, Terminal);
}

/// <summary>The people of the demonstration. Their names are invented.</summary>
internal sealed class Crew(LaboratorySetUp setUp, Accounts accounts, ApiTokens tokens, SignOn signOn, SigningPolicies policies, HistoryClock clock)
{
    private static readonly (Role Role, string Key, string SignOnName, string FullName, string Terminal, string? Customer)[] Everybody =
    [
        (Role.Administrator, "administrator.1", "ansel.crake", "Ansel Crake", "Office 1", null),
        (Role.LaboratoryManager, "laboratory-manager.1", "hesper.lunn", "Hesper Lunn", "Office 2", null),
        (Role.QualityManager, "quality-manager.1", "odile.tarrant", "Odile Tarrant", "Office 3", null),
        (Role.Reviewer, "reviewer.1", "corwin.hale", "Corwin Hale", "Laboratory desk", null),
        (Role.Reviewer, "reviewer.2", "brannoch.ives", "Brannoch Ives", "Laboratory desk", null),
        (Role.Technician, "technician.1", "maren.holt", "Maren Holt", "Bench 1", null),
        (Role.Technician, "technician.2", "tobiah.quill", "Tobiah Quill", "Bench 1", null),
        (Role.Technician, "technician.3", "ysolde.fenn", "Ysolde Fenn", "Bench 2", null),
        (Role.Customer, "customer.1", "petra.wickstead", "Petra Wickstead", "elsewhere", Catalogue.Orrin),
        (Role.Customer, "customer.2", "dorian.vesk", "Dorian Vesk", "elsewhere", Catalogue.Veldt),
        (Role.Customer, "customer.3", "linnet.aure", "Linnet Aure", "elsewhere", Catalogue.Halvard),
    ];

    private readonly List<Member> members = [];
    private readonly Dictionary<Guid, DateOnly> signedOn = [];

    public Member Administrator => Of(Role.Administrator)[0];

    public Member LaboratoryManager => Of(Role.LaboratoryManager)[0];

    public Member QualityManager => Of(Role.QualityManager)[0];

    public IReadOnlyList<Member> Reviewers => Of(Role.Reviewer);

    public IReadOnlyList<Member> Technicians => Of(Role.Technician);

    /// <summary>Everybody's card with new random secrets.</summary>
    public static IReadOnlyList<DemonstrationPerson> NewCards()
    {
        var pins = RandomSecrets.Pins(Everybody.Length);
        return [.. Everybody.Select((one, index) => new DemonstrationPerson(one.Key, one.Role, one.SignOnName, one.FullName, RandomSecrets.Password(one.SignOnName, one.FullName), pins[index], one.Customer))];
    }

    /// <summary>Sets the laboratory up and takes the staff on.</summary>
    public async Task TakeOnAsync(IReadOnlyList<DemonstrationPerson> cards, string publicAddress, CancellationToken cancellation)
    {
        var identity = new LaboratoryIdentity("Tarnfell Milling", "Laboratory\nSluice Lane 4\nTarnfell", "laboratory@tarnfell.example", WorkingTime.ZoneName, publicAddress);
        foreach (var card in cards.Where(card => card.Customer is null))
        {
            var person = new NewPerson(card.SignOnName, card.FullName, [card.Role], card.Password, card.Pin) { Identity = new IdentitySeen("Hesper Lunn", "Staff record and passport, in person", WorkingTime.DayOf(clock.Now)) };
            var id = card.Role == Role.Administrator
                ? await setUp.OpenDemonstrationAsync(identity, person, cancellation)
                : await accounts.CreateAsync(Administrator.Actor, person, null, cancellation);
            Add(card, id);
            await AcceptPolicyAsync(members[^1], cancellation);
            clock.Pass(90);
        }
    }

    private async Task AcceptPolicyAsync(Member member, CancellationToken cancellation) =>
        await policies.AcceptAsync(member.Actor, (await policies.FindAsync(cancellation)).Number, await ProveAsync(member, cancellation), cancellation);

    /// <summary>Gives the customers' contacts their accounts.</summary>
    public async Task InviteAsync(IReadOnlyList<DemonstrationPerson> cards, IReadOnlyDictionary<string, Guid> customers, CancellationToken cancellation)
    {
        foreach (var card in cards.Where(card => card.Customer is not null))
        {
            Add(card, await accounts.CreateAsync(Administrator.Actor, new NewPerson(card.SignOnName, card.FullName, [card.Role], card.Password, card.Pin, customers[card.Customer!]), null, cancellation));
            clock.Pass(90);
        }
    }

    /// <summary>A token with all scopes, for the laboratory manager.</summary>
    public async Task<string> IssueTokenAsync(CancellationToken cancellation) =>
        await tokens.IssueAsync(Administrator.Actor, LaboratoryManager.Id, "Demonstration", Enum.GetValues<TokenScope>(), TimeSpan.FromDays(400), cancellation);

    /// <summary>The password given again, for one signature.</summary>
    public Task<SecretProof> ProveAsync(Member member, CancellationToken cancellation) => signOn.ProveAsync(member.Actor, member.Card.Password, cancellation);

    /// <summary>Signs a member on, once a day.</summary>
    public async Task<Member> AtWorkAsync(Member member, CancellationToken cancellation)
    {
        var today = WorkingTime.DayOf(clock.Now);
        if (signedOn.GetValueOrDefault(member.Id) != today)
        {
            await signOn.SignOnAsync(member.Card.SignOnName, member.Card.Password, new TerminalSeen(member.Terminal), cancellation);
            signedOn[member.Id] = today;
            clock.Pass(15);
        }

        return member;
    }

    private void Add(DemonstrationPerson card, Guid id) => members.Add(new Member(card, id, Everybody.Single(one => one.Key == card.Key).Terminal));

    private List<Member> Of(Role role) => members.FindAll(member => member.Card.Role == role);
}
