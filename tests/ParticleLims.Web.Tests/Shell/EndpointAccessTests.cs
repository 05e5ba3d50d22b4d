using System.Net;
using ParticleLims.Laboratory.Certificates;
using ParticleLims.Laboratory.People;
using ParticleLims.TestLaboratory.SmallLaboratories;
using Shouldly;
using Xunit;

namespace ParticleLims.Web.Tests.Shell;

/// <summary>
/// Every endpoint by every role over HTTP, on lots and certificates in each of their states: nothing is served that the table of permissions does not give, and nothing any more once the person has lost the ground for it.
/// </summary>
public sealed class EndpointAccessTests(EndpointAccessTests.Shelf given) : IClassFixture<EndpointAccessTests.Shelf>
{
    [Theory]
    [InlineData(Role.Technician)]
    [InlineData(Role.Reviewer)]
    [InlineData(Role.QualityManager)]
    [InlineData(Role.LaboratoryManager)]
    [InlineData(Role.Administrator)]
    [InlineData(Role.Customer)]
    public async Task A_role_gets_from_each_endpoint_what_the_table_gives_it_whatever_state_the_thing_is_in(Role role)
    {
        using var visitor = await given.SignedOnAsync(role);
        var wrong = new List<string>();
        var (asked, served) = (0, 0);
        foreach (var (address, needed) in given.Addresses())
        {
            using var answer = await visitor.OpenAsync(address);
            asked++;
            served += answer.StatusCode == HttpStatusCode.OK ? 1 : 0;
            var may = RolesThatMay(needed).Contains(role);
            if (may ? answer.StatusCode is HttpStatusCode.Forbidden or HttpStatusCode.Redirect or HttpStatusCode.InternalServerError : answer.StatusCode != HttpStatusCode.Forbidden)
            {
                wrong.Add($"{address}: {answer.StatusCode} where {(may ? "it is served" : "it is refused")}");
            }
        }

        wrong.ShouldBeEmpty();
        asked.ShouldBeGreaterThan(30);
        served.ShouldBeGreaterThan(role == Role.Administrator ? 0 : Shelf.Certificates.Length, "what may be had is really there");
    }

    [Theory]
    [InlineData("signed off")]
    [InlineData("locked")]
    [InlineData("disabled")]
    [InlineData("without the role")]
    public async Task Nothing_is_served_once_the_ground_for_it_is_gone(string lost)
    {
        using var visitor = new Visitor(given.Web);
        var name = "lost." + lost.Replace(' ', '.');
        var person = await given.AddAsync(name, Role.QualityManager);
        using (await visitor.SignOnAsync(name, Shelf.PasswordOf(name)))
        {
        }

        foreach (var (address, _) in given.Addresses().Where(one => RolesThatMay(one.Needed).Contains(Role.QualityManager)))
        {
            using var before = await visitor.OpenAsync(address);
            before.StatusCode.ShouldNotBe(HttpStatusCode.Forbidden, address);
            before.StatusCode.ShouldNotBe(HttpStatusCode.Redirect, address);
        }

        await LoseAsync(visitor, lost, person);
        var kept = lost == "without the role" ? KeptAsAdministrator() : [];
        foreach (var (address, _) in given.Addresses().Where(one => one.Needed != "anybody" && !kept.Contains(one.Needed)))
        {
            using var answer = await visitor.OpenAsync(address);
            answer.StatusCode.ShouldBeOneOf(HttpStatusCode.Forbidden, HttpStatusCode.Redirect);
        }
    }

    [Theory]
    [InlineData(Role.Technician)]
    [InlineData(Role.Reviewer)]
    [InlineData(Role.QualityManager)]
    [InlineData(Role.LaboratoryManager)]
    [InlineData(Role.Customer)]
    public async Task Nobody_but_the_administrator_enrols_a_terminal_and_no_session_stands_in_for_a_token(Role role)
    {
        using var visitor = await given.SignedOnAsync(role);
        using var enrolled = await visitor.PostAsync("/account", "/terminals/enrol-here", ("name", "Bench 9"), ("place", "Sieving room"));
        enrolled.StatusCode.ShouldBe(HttpStatusCode.Forbidden);
        using var evaluated = await visitor.PostJsonAsync("/api/v1/evaluations", "{}");
        evaluated.StatusCode.ShouldBe(HttpStatusCode.Unauthorized);
    }

    // Written out here, and not asked of the program: who gets which kind of thing.
    private static Role[] RolesThatMay(string needed) => needed switch
    {
        "SeeLaboratory" => [Role.Technician, Role.Reviewer, Role.QualityManager, Role.LaboratoryManager],
        "SeeCertificates" => [Role.Technician, Role.Reviewer, Role.QualityManager, Role.LaboratoryManager, Role.Customer],
        "ReadRecord" => [Role.Reviewer, Role.QualityManager, Role.LaboratoryManager, Role.Administrator],
        "KeepEquipment" => [Role.LaboratoryManager],
        "WriteDocuments" => [Role.Reviewer, Role.QualityManager, Role.LaboratoryManager],
        "anybody" => Enum.GetValues<Role>(),
        _ => throw new ArgumentOutOfRangeException(nameof(needed), needed, "A permission of an endpoint that this test does not know: say here who holds it."),
    };

    // Whoever is the administrator instead may still read the record.
    private static string[] KeptAsAdministrator() => ["ReadRecord"];

    private async Task LoseAsync(Visitor visitor, string lost, Guid person)
    {
        var (accounts, administrator) = (given.Web.Get<Accounts>(), given.Small.People.Administrator.Actor);
        var version = (await accounts.AllAsync(administrator, default)).Single(row => row.Id == person).Version;
        switch (lost)
        {
            case "signed off":
                using (await visitor.PostAsync("/account", "/sign-off"))
                {
                }

                break;
            case "locked":
                using (await visitor.PostAsync("/account", "/lock", ("to", "/")))
                {
                }

                break;
            case "disabled":
                await accounts.DisableAsync(administrator, person, "Has left the mill", version, default);
                break;
            default:
                await accounts.SetRolesAsync(administrator, person, [Role.Administrator], "Keeps the accounts from now on", version, default);
                break;
        }
    }

    /// <summary>The program with a certificate in each of its states, a lot in several, and a person of each role.</summary>
    public sealed class Shelf : IAsyncLifetime
    {
        /// <summary>The states that a certificate can be in.</summary>
        public static readonly CertificateState[] Certificates = Enum.GetValues<CertificateState>();

        private readonly List<(Guid Lot, Guid Sample, Guid Run)> lots = [];
        private readonly List<Guid> certificates = [];

        /// <summary>The program.</summary>
        public RunningWeb Web { get; private set; } = null!;

        /// <summary>What is in it.</summary>
        public SmallLaboratory Small { get; private set; } = null!;

        /// <inheritdoc />
        public async ValueTask InitializeAsync()
        {
            Web = await RunningWeb.StartAsync("--RateLimits:SignOn=600");
            Small = await SmallLaboratory.SetUpAsync(Web.Services, sievingSeconds: 1);
            await LotsAsync();
            foreach (var role in Enum.GetValues<Role>())
            {
                await AddAsync(NameOf(role), role);
            }
        }

        /// <inheritdoc />
        public ValueTask DisposeAsync() => Web.DisposeAsync();

        /// <summary>The password of an added person.</summary>
        public static string PasswordOf(string name) => $"{name} walks nine quiet miles";

        /// <summary>Adds a person.</summary>
        public Task<Guid> AddAsync(string name, Role role) => Web.Get<Accounts>().CreateAsync(
            Small.People.Administrator.Actor, new NewPerson(name, $"Test {name}", [role], PasswordOf(name), CustomerId: role == Role.Customer ? Small.Customer : null) { Identity = SmallLaboratory.SeenInPerson }, null, default);

        /// <summary>Somebody of a role at a browser.</summary>
        public async Task<Visitor> SignedOnAsync(Role role)
        {
            var visitor = new Visitor(Web);
            using var answer = await visitor.SignOnAsync(NameOf(role), PasswordOf(NameOf(role)));
            answer.Headers.Location!.ToString().ShouldBe("/");
            return visitor;
        }

        /// <summary>Every GET endpoint of the table, filled with each thing that it could be asked for.</summary>
        public IEnumerable<(string Address, string Needed)> Addresses()
        {
            foreach (var (row, needed) in PermissionTable.Rows(PermissionTable.Endpoints).Where(row => row.Key.StartsWith("GET ", StringComparison.Ordinal) && !row.Key.Contains("/verify", StringComparison.Ordinal)))
            {
                var pattern = row[4..].Replace("{documentName}", "v1", StringComparison.Ordinal).Replace("/import/template/{file}", "/import/template/sieves.csv", StringComparison.Ordinal)
                    .Replace("/export/{file}", "/export/sieves.csv", StringComparison.Ordinal).Replace("{file}", "curve.csv", StringComparison.Ordinal)
                    .Replace("{key:guid}", Guid.Empty.ToString(), StringComparison.Ordinal).Replace("{versionId:guid}", "6c696d73-0000-7000-8000-000000000003", StringComparison.Ordinal).Replace("{sha256:regex(^[0-9a-f]{{64}}$)}", new string('0', 64), StringComparison.Ordinal);
                var filled = pattern.Contains("certificates/{id", StringComparison.Ordinal)
                    ? certificates.Select(id => pattern.Replace("{id:guid}", id.ToString(), StringComparison.Ordinal))
                    : lots.Select(lot => pattern.Replace("{lotId:guid}", lot.Lot.ToString(), StringComparison.Ordinal).Replace("{sampleId:guid}", lot.Sample.ToString(), StringComparison.Ordinal)
                        .Replace("{runId:guid}", lot.Run.ToString(), StringComparison.Ordinal).Replace("{id:guid}", lot.Run.ToString(), StringComparison.Ordinal)).Distinct();
                foreach (var address in filled)
                {
                    yield return (address, needed);
                }
            }
        }

        private async Task LotsAsync()
        {
            var issuing = Web.Get<CertificateIssue>();
            var quality = Small.People.QualityManager.Actor;
            foreach (var state in Certificates)
            {
                var lot = await (await Small.BookInAsync(Small.Spice)).ReleaseAsync(Powder.Spice);
                lots.Add((lot.Id, lot.Sample.Id, lot.RunId));
                var id = await Small.Desk.IssueAsync(lot.Id, lot.Sample.Id);
                certificates.Add(id);
                await (state switch
                {
                    CertificateState.Issued => Task.CompletedTask,
                    CertificateState.Superseded => issuing.ReviseAsync(quality, id, "The customer's address", "It had moved", 1, "revise", default),
                    CertificateState.Withdrawn => issuing.WithdrawAsync(quality, id, "The customer's name was wrong", 1, default),
                    CertificateState.Suspended => Web.Get<CertificateLife>().SuspendAsync(quality, id, "The customer found lumps", 1, default),
                    _ => throw new ArgumentOutOfRangeException(nameof(state), state, "A state of a certificate that this test does not bring about."),
                });
            }

            var (waiting, held) = (await Small.BookInAsync(Small.Spice), await (await Small.BookInAsync(Small.Spice)).SubmitAsync(Powder.SpiceCoarser(8m)));
            lots.AddRange([(waiting.Id, waiting.Sample.Id, waiting.RunId), (held.Id, held.Sample.Id, held.RunId)]);
        }

        private static string NameOf(Role role) => $"a.{role}".ToLowerInvariant();
    }
}
