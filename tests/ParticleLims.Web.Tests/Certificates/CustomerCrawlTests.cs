using System.Globalization;
using System.Net;
using System.Security.Cryptography;
using System.Text.RegularExpressions;
using ParticleLims.CertificatePdf.Sealing;
using ParticleLims.Laboratory.Certificates;
using ParticleLims.Laboratory.People;
using ParticleLims.TestLaboratory.SmallLaboratories;
using ParticleLims.Web.Tests.Shell;
using Shouldly;
using Xunit;

namespace ParticleLims.Web.Tests.Certificates;

/// <summary>Two customers, a certificate each: whatever address one opens, nothing of the other's is there.</summary>
public sealed partial class CustomerCrawlTests(CustomerCrawlTests.TwoCustomers given) : IClassFixture<CustomerCrawlTests.TwoCustomers>
{
    [GeneratedRegex(@"\{[^}]*:guid\}", RegexOptions.None, matchTimeoutMilliseconds: 1_000)]
    private static partial Regex Guids { get; }

    [Fact]
    public async Task A_customer_downloads_its_own_in_every_form_and_the_file_is_genuine()
    {
        using var visitor = await given.SignedOnAsync(0);
        using var pdf = await visitor.OpenAsync($"/certificates/{given.Own[0].Id}/file");
        SealCheck.Check(await pdf.Content.ReadAsByteArrayAsync(), given.Web.Get<SealKeys>().Certificates()).Outcome.ShouldBe(SealOutcome.Genuine);
        using var json = await visitor.OpenAsync($"/certificates/{given.Own[0].Id}/json");
        var twin = await json.Content.ReadAsByteArrayAsync();
        Convert.ToHexStringLower(SHA256.HashData(twin)).ShouldBe(given.Own[0].ContentHash);
        using var csv = await visitor.OpenAsync($"/certificates/{given.Own[0].Id}/csv");
        (await csv.Content.ReadAsStringAsync()).ShouldContain($"{given.Own[0].Number},1,{given.Own[0].Lot},result,Passing 45 µm,%,97.0,,98.0,");
    }

    [Fact]
    public async Task The_fractions_of_a_nested_stack_and_what_lay_in_the_receiver_make_up_the_whole()
    {
        using var visitor = await given.SignedOnAsync(1);
        using var csv = await visitor.OpenAsync($"/certificates/{given.Own[1].Id}/csv");
        var rows = (await csv.Content.ReadAsStringAsync()).Split("\r\n", StringSplitOptions.RemoveEmptyEntries).Select(row => row.Split(',')).Where(row => row[3] is "sieve" or "receiver").ToList();
        rows[^1][3].ShouldBe("receiver");
        rows.Count.ShouldBeGreaterThan(2);
        decimal Number(string cell) => decimal.Parse(cell, CultureInfo.InvariantCulture);
        var (whole, rounding) = (rows.Sum(row => Number(row[12])), 0.005m * rows.Count);
        rows.Sum(row => Number(row[^1])).ShouldBe(100m, rounding);
        var coarser = 0m;
        foreach (var row in rows)
        {
            Number(row[^1]).ShouldBe(100m * Number(row[12]) / whole, 0.011m, row[4]);
            coarser += Number(row[^1]);
            if (row[3] == "sieve")
            {
                Number(row[13]).ShouldBe(coarser, rounding, row[4]);
                (Number(row[13]) + Number(row[14])).ShouldBe(100m, 0.011m, row[4]);
            }
        }
    }

    [Theory]
    [InlineData(0)]
    [InlineData(1)]
    public async Task Nothing_of_the_other_customer_is_found_at_any_address(int who)
    {
        using var visitor = await given.SignedOnAsync(who);
        var other = given.Own[1 - who];
        foreach (var address in Addresses(other))
        {
            using var answer = await visitor.OpenAsync(address);
            answer.StatusCode.ShouldNotBe(HttpStatusCode.InternalServerError, address);
            var text = await answer.Content.ReadAsStringAsync();
            text.ShouldNotContain(other.Number, Case.Sensitive, address);
            text.ShouldNotContain(other.Lot, Case.Sensitive, address);
            text.ShouldNotContain(other.Customer, Case.Sensitive, address);
        }
    }

    [Fact]
    public async Task A_stranger_gets_nothing_but_the_way_to_sign_on()
    {
        using var stranger = new Visitor(given.Web);
        foreach (var form in new[] { "file", "json", "csv" })
        {
            using var answer = await stranger.OpenAsync($"/certificates/{given.Own[0].Id}/{form}");
            answer.StatusCode.ShouldBe(HttpStatusCode.Redirect);
        }
    }

    [Fact]
    public async Task Anybody_may_have_the_public_keys_and_nobody_the_private_ones()
    {
        using var stranger = new Visitor(given.Web);
        using var answer = await stranger.OpenAsync("/verify/keys");
        var text = await answer.Content.ReadAsStringAsync();
        text.ShouldContain("BEGIN CERTIFICATE");
        text.ShouldNotContain("PRIVATE");
    }

    /// <summary>Every page and endpoint without and with the other's identifiers in the place of each parameter.</summary>
    private static IEnumerable<string> Addresses(Certified other)
    {
        var known = PermissionTable.Rows(PermissionTable.Pages).Keys.Concat(PermissionTable.Rows(PermissionTable.Endpoints).Keys.Where(key => key.StartsWith("GET ", StringComparison.Ordinal)).Select(key => key["GET ".Length..]));
        foreach (var pattern in known.Where(pattern => !pattern.StartsWith("/verify", StringComparison.Ordinal) && !pattern.StartsWith("/health", StringComparison.Ordinal)))
        {
            foreach (var id in new[] { other.Id, other.LotId, other.SampleId, other.RunId })
            {
                yield return Guids.Replace(pattern, id.ToString()).Replace("{file}", "curve.csv", StringComparison.Ordinal).Replace("{documentName}", "v1", StringComparison.Ordinal).Replace("{Status:int}", "404", StringComparison.Ordinal);
                if (!pattern.Contains('{', StringComparison.Ordinal))
                {
                    break;
                }
            }
        }
    }

    /// <summary>A customer's certificate.</summary>
    public sealed record Certified(Guid Id, string Number, string ContentHash, string Lot, Guid LotId, Guid SampleId, Guid RunId, string Customer);

    /// <summary>The program with two customers who may sign on.</summary>
    public sealed class TwoCustomers : IAsyncLifetime
    {
        private readonly List<(string SignOnName, string Password)> people = [];

        /// <summary>The program.</summary>
        public RunningWeb Web { get; private set; } = null!;

        /// <summary>What belongs to each.</summary>
        public List<Certified> Own { get; } = [];

        /// <inheritdoc />
        public async ValueTask InitializeAsync()
        {
            Web = await RunningWeb.StartAsync();
            var small = await SmallLaboratory.SetUpAsync(Web.Services, sievingSeconds: 1);
            var first = await small.BookInAsync(small.Calcite);
            var second = await small.BookInAsync(small.Spice, small.OtherCustomer);
            Own.Add(await CertifiedAsync(small, first, Powder.Calcite, "Veldt Surface Coatings"));
            Own.Add(await CertifiedAsync(small, second, Powder.Spice, "Orrin Baking Supplies"));
            people.Add((small.People.Customer.SignOnName, small.People.Customer.Password));
            people.Add(("olin.hart", "seven blue kettles sing"));
            await small.Get<Accounts>().CreateAsync(small.People.Administrator.Actor, new NewPerson("olin.hart", "Olin Hart", [Role.Customer], "seven blue kettles sing", null, small.OtherCustomer), null, default);
        }

        /// <summary>One of the two at their browser.</summary>
        public async Task<Visitor> SignedOnAsync(int who)
        {
            var visitor = new Visitor(Web);
            using var answer = await visitor.SignOnAsync(people[who].SignOnName, people[who].Password);
            return visitor;
        }

        /// <inheritdoc />
        public ValueTask DisposeAsync() => Web.DisposeAsync();

        private static async Task<Certified> CertifiedAsync(SmallLaboratory small, TestLot lot, Powder powder, string customer)
        {
            await lot.ReleaseAsync(powder);
            var id = await small.Desk.IssueAsync(lot.Id, lot.Sample.Id);
            var twin = (await small.Get<CertificateShelf>().TwinAsync(small.People.QualityManager.Actor, id, default))!;
            var content = CertificateIssue.ReadContent(twin.Json);
            return new Certified(id, twin.Number, Laboratory.Record.RecordChain.HashOf(twin.Json), content.Product.LotNumber, lot.Id, lot.Sample.Id, lot.RunId, customer);
        }
    }
}
