using System.Net;
using ParticleLims.Laboratory.Customers;
using ParticleLims.Laboratory.People;
using ParticleLims.Laboratory.Record;
using Shouldly;
using Xunit;

namespace ParticleLims.Web.Tests.Shell;

/// <summary>Every page and endpoint against every role, over HTTP: opened exactly where the table and the role's permissions say so.</summary>
public sealed class PageAccessTests : IAsyncLifetime
{
    // In a laboratory of one's own there is no such page, whatever one may see.
    private const string DemonstrationOnly = "/demonstration/pan";
    private RunningWeb web = null!;

    public async ValueTask InitializeAsync() => web = await (await RunningWeb.StartAsync()).SetUpAsync();

    public ValueTask DisposeAsync() => web.DisposeAsync();

    [Theory]
    [InlineData(Role.Technician)]
    [InlineData(Role.Reviewer)]
    [InlineData(Role.QualityManager)]
    [InlineData(Role.LaboratoryManager)]
    [InlineData(Role.Administrator)]
    [InlineData(Role.Customer)]
    public async Task A_role_opens_the_pages_of_its_permissions_and_no_others(Role role)
    {
        using var visitor = await SignedOnAsync(role);
        var wrong = new List<string>();
        foreach (var (page, needed) in PermissionTable.Rows(PermissionTable.Pages).Where(row => Enum.TryParse<Permission>(row.Value, out _)))
        {
            using var answer = await visitor.OpenAsync(Filled(page));
            var opened = page == DemonstrationOnly ? HttpStatusCode.NotFound : HttpStatusCode.OK;
            var mayOpen = RolePermissions.All[role].Contains(Enum.Parse<Permission>(needed));
            var words = await answer.Content.ReadAsStringAsync();
            var asExpected = mayOpen ? answer.StatusCode == opened : answer.StatusCode == HttpStatusCode.Forbidden && words.Contains("Not permitted", StringComparison.Ordinal);
            if (!asExpected)
            {
                wrong.Add($"{page}: {answer.StatusCode} where {(mayOpen ? "it opens" : "it is refused")}");
            }
        }

        wrong.ShouldBeEmpty();
    }

    [Fact]
    public async Task Nobody_opens_a_page_or_a_file_without_signing_on_unless_the_table_says_anybody()
    {
        using var visitor = new Visitor(web);
        var gets = PermissionTable.Rows(PermissionTable.Endpoints).Where(row => row.Key.StartsWith("GET ", StringComparison.Ordinal)).Select(row => KeyValuePair.Create(row.Key[4..], row.Value));
        var wrong = new List<string>();
        foreach (var (address, _) in PermissionTable.Rows(PermissionTable.Pages).Concat(gets).Where(row => row.Value != "anybody"))
        {
            using var answer = await visitor.OpenAsync(Filled(address));
            if (answer.StatusCode != HttpStatusCode.Redirect || !answer.Headers.Location!.ToString().Contains("/sign-on?to=", StringComparison.Ordinal))
            {
                wrong.Add($"{address}: {answer.StatusCode}");
            }
        }

        wrong.ShouldBeEmpty();
    }

    private async Task<Visitor> SignedOnAsync(Role role)
    {
        const string password = "pat walks nine quiet miles";
        var customer = role == Role.Customer ? await CustomerAsync() : (Guid?)null;
        await web.Get<Accounts>().CreateAsync(web.Administrator, new NewPerson("pat", "Test Person", [role], password, CustomerId: customer) { Identity = ParticleLims.TestLaboratory.SmallLaboratories.SmallLaboratory.SeenInPerson }, null, CancellationToken.None);
        var visitor = new Visitor(web);
        using var signedOn = await visitor.SignOnAsync("pat", password);
        signedOn.Headers.Location!.ToString().ShouldBe("/");
        return visitor;
    }

    private async Task<Guid> CustomerAsync()
    {
        var manager = await web.AddAsync("max", Role.LaboratoryManager);
        return await web.Get<CustomerKeeping>().AddAsync(manager, new CustomerCard("Orrin Baking Supplies", "Dock Road 4", "buying@orrin.example"), null, CancellationToken.None);
    }

    private static string Filled(string address) => string.Join('/', address.Split('/').Select(part =>
        part.StartsWith("{sha256", StringComparison.Ordinal) ? new string('0', 64) : part.StartsWith('{') ? "018f0000-0000-7000-8000-000000000001" : part));
}
