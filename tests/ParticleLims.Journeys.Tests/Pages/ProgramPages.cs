using Microsoft.Playwright;

namespace ParticleLims.Journeys.Tests.Pages;

/// <summary>Every page of the program, with the person for whom it is and something telling on it.</summary>
public static class ProgramPages
{
    private const string Technician = "technician.1";
    private const string Reviewer = "reviewer.1";
    private const string Quality = "quality-manager.1";
    private const string Manager = "laboratory-manager.1";
    private const string Administrator = "administrator.1";
    private const string Customer = "customer.1";

    /// <summary>All of them.</summary>
    public static IReadOnlyList<ProgramPage> All(DemonstrationPlaces places) =>
        [.. ForAnybody(places), .. ForTechnicians(places), .. ForReviewers(places), .. ForQuality(places), .. ForManagers(places), .. Documents(places), .. ForAdministrators(places), .. ForCustomers()];

    private static ProgramPage[] ForAnybody(DemonstrationPlaces places) =>
    [
        new("sign-on", null, "/sign-on", "Sign on") { Live = false },
        new("activate", null, "/activate", "Set your password") { Live = false },
        new("sign-on-code", null, "/sign-on?with=code", "One more step") { Live = false },
        new("enrol", null, "/enrol", "Enrol this terminal") { Live = false },
        new("verify", null, "/verify", "Check a certificate") { Live = false, OnPhone = true },
        new("verify-genuine", null, $"/verify/{places.GenuineToken}", "Check a certificate") { Live = false, OnPhone = true },
        new("verify-withdrawn", null, $"/verify/{places.WithdrawnToken}", "Check a certificate") { Live = false },
        new("not-found", Technician, "/lots/there-is-none", "There is no such page") { Status = 404 },
        new("not-permitted", Technician, "/people", "Not permitted") { Status = 403 },
        new("rest-interface", Manager, "/api", "REST interface"),
    ];

    private static ProgramPage[] ForTechnicians(DemonstrationPlaces places) =>
    [
        new("today-technician", Technician, "/", "Today") { OnPhone = true },
        new("bench", Technician, "/bench", "Bench"),
        new("run-start", Technician, $"/bench/{places.PlannedRun}", "R-") { InDark = true },
        new("run-weigh", Technician, $"/bench/{places.RunInProgress}", "R-") { InDark = true },
        new("pan", Technician, "/demonstration/pan", "The simulated pan"),
        new("lots", Technician, "/lots", "Lots"),
        new("lots-none", Technician, "/lots?number=NONE-SUCH", "Lots"),
        new("lot-new", Technician, "/lots/new", "Book in a lot"),
        new("sample-new", Technician, $"/lots/{places.LotAwaitingResults}/sample", "Book in a sample"),
        new("sample-label", Technician, $"/samples/{places.Sample}/label", "Label"),
        new("account", Technician, "/account", "Your account"),
    ];

    private static ProgramPage[] ForReviewers(DemonstrationPlaces places) =>
    [
        new("today-reviewer", Reviewer, "/", "Today"),
        new("review", Reviewer, "/review", "Review"),
        new("review-run", Reviewer, $"/review/{places.RunToReview}", "Run"),
    ];

    private static ProgramPage[] ForQuality(DemonstrationPlaces places) =>
    [
        new("today-quality-manager", Quality, "/", "Today") { OnPhone = true },
        new("decisions", Quality, "/decisions", "Decisions") { OnPhone = true },
        new("decision", Quality, $"/decisions/{places.LotAwaitingDisposition}", "Lot") { OnPhone = true, InDark = true },
        new("decision-sign", Quality, $"/decisions/{places.LotAwaitingDisposition}", "Lot") { First = AskToSignAsync },
        new("lot", Quality, $"/lots/{places.ReleasedLot}", "Lot") { OnPhone = true, InDark = true },
        new("lot-concession", Quality, $"/lots/{places.ConcessionLot}", "Lot"),
        new("lot-rejected", Quality, $"/lots/{places.RejectedLot}", "Lot"),
        new("investigations", Quality, "/investigations", "Investigations"),
        new("case-figures", Quality, "/investigations/figures", "Case figures"),
        new("investigation-open", Quality, $"/investigations/{places.OpenInvestigation}", "Investigation"),
        new("investigation-closed", Quality, $"/investigations/{places.ClosedInvestigation}", "Investigation"),
        new("certificates", Quality, "/certificates", "Certificates") { OnPhone = true },
        new("certificates-several", Quality, "/certificates/several", "One certificate of several samples") { OnPhone = true, InDark = true },
        new("certificate-templates", Quality, "/certificates/templates", "Templates of certificates") { OnPhone = true },
        new("certificate-template", Quality, "/certificates/templates/6c696d73-0000-7000-8000-000000000002", "STANDARD") { OnPhone = true },
        new("certificate-template-new", Quality, "/certificates/templates/new", "Write a template of certificates") { OnPhone = true, InDark = true },
        new("certificate-template-revise", Quality, "/certificates/templates/6c696d73-0000-7000-8000-000000000002/revise", "Write the next version of STANDARD"),
        new("certificate", Quality, $"/certificates/{places.Certificate}", "Certificate C-") { OnPhone = true, InDark = true },
    ];

    private static ProgramPage[] ForManagers(DemonstrationPlaces places) =>
    [
        new("today-laboratory-manager", Manager, "/", "Today"),
        new("equipment", Manager, "/equipment", "Equipment") { OnPhone = true },
        new("sieve", Manager, $"/equipment/sieves/{places.BlindedSieve}", "Test sieve") { InDark = true },
        new("sieve-scrapped", Manager, $"/equipment/sieves/{places.ScrappedSieve}", "Test sieve"),
        new("sieve-new", Manager, "/equipment/sieves/new", "Register a sieve"),
        new("sieve-worn", Manager, $"/equipment/sieves/{places.WornSieve}", "Test sieve"),
        new("sieve-inspect", Technician, $"/equipment/sieves/{places.WornSieve}/inspect", "Inspect sieve") { OnPhone = true, InDark = true },
        new("reference-materials", Manager, "/equipment/reference-materials", "Reference materials"),
        new("tolerances", Manager, "/equipment/tolerances", "Permissible deviations") { InDark = true },
        new("check-weight", Manager, $"/equipment/check-weights/{places.CheckWeight}", "Check weight") { OnPhone = true },
        new("check-weight-new", Manager, "/equipment/check-weights/new", "Register a check weight"),
        new("equipment-failure", Quality, $"/equipment/failures/{places.EquipmentFailure}", "Failed equipment") { OnPhone = true, InDark = true },
        new("balance", Manager, $"/equipment/balances/{places.BenchBalance}", "Balance"),
        new("balance-failed", Manager, $"/equipment/balances/{places.FailedBalance}", "Balance"),
        new("balance-new", Manager, "/equipment/balances/new", "Register a balance"),
        new("sieving-unit", Manager, $"/equipment/sieving-units/{places.SievingUnit}", "Sieving unit") { OnPhone = true, InDark = true },
        new("sieving-unit-new", Manager, "/equipment/sieving-units/new", "Register a sieving unit"),
        new("check-weights", Manager, "/equipment/check-weights", "Check weights"),
        new("equipment-import", Manager, "/equipment/import", "Import an equipment register") { OnPhone = true, First = ChooseRegisterAsync },
        new("equipment-labels", Manager, "/equipment/labels", "Equipment labels"),
        new("reading-formats", Manager, "/equipment/reading-formats", "Reading formats") { OnPhone = true },
        new("reading-format", Manager, "/equipment/reading-formats", "Reading formats") { OnPhone = true, First = TryLinesAsync },
        new("products", Manager, "/products", "Products"),
        new("customers", Manager, "/customers", "Customers"),
        new("customer", Manager, $"/customers/{places.Customer}", "Orrin Baking Supplies") { OnPhone = true, InDark = true },
    ];

    private static ProgramPage[] Documents(DemonstrationPlaces places) =>
    [
        new("methods", Manager, "/methods", "Methods"),
        new("method", Manager, $"/methods/{places.RevisedMethod}", "M-MS-90"),
        new("method-approve", Quality, $"/methods/{places.MethodInApproval}", "M-PS-63"),
        new("method-new", Manager, "/methods/new", "Write a method"),
        new("method-revise", Manager, $"/methods/{places.RevisedMethod}/revise", "Write the next version"),
        new("access-review", Quality, "/access-review", "Access review"),
        new("specifications", Manager, "/specifications", "Specifications"),
        new("specification", Manager, $"/specifications/{places.RevisedSpecification}", "SP-GC-45"),
        new("specification-new", Manager, "/specifications/new", "Write a specification"),
        new("specification-revise", Manager, $"/specifications/{places.RevisedSpecification}/revise", "Write the next version"),
    ];

    private static ProgramPage[] ForAdministrators(DemonstrationPlaces places) =>
    [
        new("today-administrator", Administrator, "/", "Today"),
        new("people", Administrator, "/people", "People"),
        new("person", Administrator, $"/people/{places.Person}", string.Empty),
        new("person-new", Administrator, "/people/new", "New account"),
        new("terminals", Administrator, "/terminals", "Terminals"),
        new("terminal-code", Administrator, "/terminals", "Terminals") { First = MakeCodeAsync },
        new("terminal-enrol", Administrator, "/terminals/enrol", "Enrol this terminal") { Live = false },
        new("settings", Administrator, "/settings", "Settings"),
        new("audit-trail", Administrator, "/record", "Audit trail"),
        new("audit-trail-of-lot", Administrator, $"/record?subject={places.ReleasedLot}&whole=true", "Everything that happened to lot"),
        new("heads", Administrator, "/record/heads", "Heads outside"),
        new("alerts", Administrator, "/alerts", "Alerts"),
        new("outgoing", Administrator, "/outgoing", "Outgoing messages"),
        new("access-review-administrator", Administrator, "/access-review", "Access review"),
    ];

    private static ProgramPage[] ForCustomers() =>
    [
        new("today-customer", Customer, "/", "Today"),
        new("certificates-customer", Customer, "/certificates", "Certificates"),
    ];

    private static async Task ChooseRegisterAsync(IPage page)
    {
        const string register = "Serial number;Nominal aperture (µm);Frame diameter (mm);Standard of the cloth;Place;State\n"
            + "TS-045-1;45;200;ISO 3310-1:2016;Rack A;in service\nTS-071-7;71;200;ISO 3310-1:2016;Rack B;in service\nTS-090-7;ninety;200;ISO 3310-1:2016;;in service\nTS-125-7;125;203;ASTM E11-22;Rack B;scrapped\n";
        await page.At("import-file").SetInputFilesAsync(new FilePayload { Name = "register.csv", MimeType = "text/csv", Buffer = System.Text.Encoding.UTF8.GetBytes(register) });
        await page.At("dry-run").WaitForAsync();
    }

    private static async Task TryLinesAsync(IPage page)
    {
        await page.At("open-format").First.ClickAsync();
        await page.Locator("#format-lines").FillAsync("S +   312.3450 g 0417\nU +   312.3451 g 0417\nS +   312,3450 g 0417\nO +----------- g 0417");
        await page.At("trial").Locator("tbody tr").Nth(3).WaitForAsync();
    }

    private static async Task MakeCodeAsync(IPage page)
    {
        await page.Locator("#terminal-name").FillAsync($"Bench {Guid.NewGuid():N}"[..20]);
        await page.Locator("#terminal-place").FillAsync("Sieving room");
        await page.At("make-code").ClickAsync();
        await page.At("code").WaitForAsync();
    }

    private static async Task AskToSignAsync(IPage page)
    {
        await page.At("release").ClickAsync();
        await page.Locator("#sign-password").WaitForAsync();
        await page.WaitForTimeoutAsync(400);
    }
}
