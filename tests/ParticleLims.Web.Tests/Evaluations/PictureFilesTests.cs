using System.Net;
using System.Xml.Linq;
using Microsoft.Extensions.DependencyInjection;
using ParticleLims.TestLaboratory.SmallLaboratories;
using ParticleLims.Web.Evaluations;
using ParticleLims.Web.Tests.Shell;
using Shouldly;
using Xunit;

namespace ParticleLims.Web.Tests.Evaluations;

/// <summary>Pictures as files over HTTP, of a run that was carried out.</summary>
public sealed class PictureFilesTests(PictureFilesTests.CarriedOut place) : IClassFixture<PictureFilesTests.CarriedOut>
{
    private readonly RunningWeb web = place.Web;
    private readonly SmallLaboratory small = place.Small;
    private readonly TestLot lot = place.Lot;

    [Fact]
    public async Task Every_picture_of_a_run_is_a_file_and_a_table()
    {
        using var reviewer = await SignedOnAsync(small.People.Reviewer);
        foreach (var view in Enum.GetValues<ResultView>().Where(view => view != ResultView.Budget))
        {
            using var picture = await reviewer.OpenAsync($"{PictureFiles.OfRun(lot.RunId)}/{view.FileName()}.svg");
            picture.StatusCode.ShouldBe(HttpStatusCode.OK);
            picture.Content.Headers.ContentDisposition!.FileName!.Trim('"').ShouldEndWith($"-{view.FileName()}.svg");
            XElement.Parse(await picture.Content.ReadAsStringAsync()).Name.LocalName.ShouldBe("svg");
            using var table = await reviewer.OpenAsync($"{PictureFiles.OfRun(lot.RunId)}/{view.FileName()}.csv");
            var lines = (await table.Content.ReadAsStringAsync()).Split("\r\n", StringSplitOptions.RemoveEmptyEntries);
            lines.Length.ShouldBeGreaterThan(3, view.FileName());
        }

        using var curve = await reviewer.OpenAsync($"{PictureFiles.OfRun(lot.RunId)}/curve.csv");
        (await curve.Content.ReadAsStringAsync()).ShouldContain("\r\n45,98,");
        using var sample = await reviewer.OpenAsync(PictureFiles.CurveOfSample(lot.Id, lot.Sample.Id) + ".csv");
        (await sample.Content.ReadAsStringAsync()).ShouldContain("\r\n45,98");
    }

    [Fact]
    public async Task What_is_not_there_is_not_found()
    {
        using var reviewer = await SignedOnAsync(small.People.Reviewer);
        foreach (var address in new[]
        {
            $"{PictureFiles.OfRun(lot.RunId)}/portrait.svg", $"{PictureFiles.OfRun(lot.RunId)}/curve.exe", $"{PictureFiles.OfRun(lot.RunId)}/uncertainty-budget-of-d51.svg", $"{PictureFiles.OfRun(Guid.NewGuid())}/curve.svg",
            PictureFiles.CurveOfSample(lot.Id, Guid.NewGuid()) + ".svg", PictureFiles.CurveOfSample(Guid.NewGuid(), lot.Sample.Id) + ".csv",
        })
        {
            using var answer = await reviewer.OpenAsync(address);
            answer.StatusCode.ShouldBe(HttpStatusCode.NotFound, address);
        }
    }

    [Fact]
    public async Task A_customer_and_a_stranger_get_no_picture()
    {
        var address = $"{PictureFiles.OfRun(lot.RunId)}/curve.svg";
        using var customer = await SignedOnAsync(small.People.Customer);
        using var forbidden = await customer.OpenAsync(address);
        forbidden.StatusCode.ShouldBe(HttpStatusCode.Forbidden);
        using var stranger = new Visitor(web);
        using var sent = await stranger.OpenAsync(address);
        sent.StatusCode.ShouldBe(HttpStatusCode.Redirect);
    }

    [Fact]
    public async Task The_pages_of_the_run_and_of_its_lot_show_the_pictures_and_the_numbers()
    {
        using var reviewer = await SignedOnAsync(small.People.Reviewer);
        foreach (var page in new[] { $"/review/{lot.RunId}", $"/lots/{lot.Id}" })
        {
            using var answer = await reviewer.OpenAsync(page);
            var html = await answer.Content.ReadAsStringAsync();
            html.ShouldContain("data-test=\"picture-log-normal-net\"");
            html.ShouldContain("data-test=\"models\"");
            html.ShouldContain("data-test=\"summary\"");
            html.ShouldContain("/curve.csv");
        }
    }

    private async Task<Visitor> SignedOnAsync(TestPerson person)
    {
        var visitor = new Visitor(web);
        using var answer = await visitor.SignOnAsync(person.SignOnName, person.Password);
        return visitor;
    }
    /// <summary>A laboratory with one run submitted.</summary>
    public sealed class CarriedOut : IAsyncLifetime
    {
        /// <summary>The program.</summary>
        public RunningWeb Web { get; private set; } = null!;

        /// <summary>What is in it.</summary>
        public SmallLaboratory Small { get; private set; } = null!;

        /// <summary>The lot of the run.</summary>
        public TestLot Lot { get; private set; } = null!;

        /// <inheritdoc />
        public async ValueTask InitializeAsync()
        {
            Web = await RunningWeb.StartAsync();
            Small = await SmallLaboratory.SetUpAsync(Web.Get<IServiceScopeFactory>().CreateScope().ServiceProvider, sievingSeconds: 1);
            Lot = await Small.BookInAsync(Small.Calcite);
            await Small.Bench().CarryOutAsync(Lot.RunId, Small.Calcite, Powder.Calcite);
        }

        /// <inheritdoc />
        public ValueTask DisposeAsync() => Web.DisposeAsync();
    }
}
