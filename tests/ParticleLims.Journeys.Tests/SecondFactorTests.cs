using Deque.AxeCore.Playwright;
using Microsoft.Playwright;
using OtpNet;
using ParticleLims.TestLaboratory.SmallLaboratories;
using Shouldly;
using Xunit;

namespace ParticleLims.Journeys.Tests;

/// <summary>One-time codes, a passkey of the browser's own test authenticator, and a password that its owner alone knows, in a real browser.</summary>
public sealed class SecondFactorTests
{
    [Fact]
    public async Task Codes_are_set_up_and_asked_for_and_a_passkey_signs_on_and_signs()
    {
        await using var journey = await JourneyLaboratory.OpenAsync();

        // A passkey belongs to a name, never to an address of numbers.
        var address = new UriBuilder(journey.Program.Address) { Host = "localhost" }.Uri;
        await using var browser = await Browser.OpenAsync(address);
        var (small, manager) = (journey.Small, journey.Small.People.QualityManager);
        var page = await browser.SignOnAsync(manager);
        await page.OpenAsync("/account");
        await page.FillAsync("#factor-password", manager.Password);
        await page.At("make-code-key").ClickAsync();
        var key = (await page.At("code-key").GetAttributeAsync("data-key"))!;
        (await page.Locator("main").RunAxe()).Violations.Select(violation => violation.Id).ShouldBeEmpty();
        await page.FillAsync("#first-code", CodeOf(key, 0));
        await page.At("confirm-code").ClickAsync();
        await page.At("recovery-codes").WaitForAsync();
        (await page.At("recovery-codes").Locator("li").CountAsync()).ShouldBe(8);
        var recovery = await page.At("recovery-codes").Locator("li").First.InnerTextAsync();
        await page.At("recovery-kept").ClickAsync();

        var second = await browser.OpenPageAsync();
        await second.GotoAsync("/sign-on");
        await second.FillAsync("#name", manager.SignOnName);
        await second.FillAsync("#password", manager.Password);
        await second.ClickAsync("button[type=submit]");
        await second.At("code").FillAsync("000000");
        await second.At("give-code").ClickAsync();
        await second.At("refusal").WaitForAsync();
        await second.At("code").FillAsync(recovery);
        await second.At("give-code").ClickAsync();
        await second.WaitForURLAsync(url => !url.Contains("/sign-on", StringComparison.Ordinal));

        await AddAuthenticatorAsync(second);
        await second.OpenAsync("/account");
        await second.FillAsync("#factor-password", manager.Password);
        await second.FillAsync("#passkey-name", "Key ring");
        await second.At("add-passkey").ClickAsync();
        await second.At("passkey").GetByText("Key ring").WaitForAsync();

        await second.Context.ClearCookiesAsync();
        await second.GotoAsync("/sign-on");
        await second.At("with-passkey").ClickAsync();
        await second.WaitForURLAsync(url => !url.Contains("/sign-on", StringComparison.Ordinal));

        var lot = await (await (await small.BookInAsync(small.Calcite)).SubmitAsync(Powder.Calcite)).AcceptAsync();
        await second.OpenAsync($"/decisions/{lot.Id}");
        await second.At("release").ClickAsync();
        await second.Locator("#sign-password").WaitForAsync();
        await second.At("sign-with-passkey").ClickAsync();
        await second.At("dispositions").WaitForAsync();
        (await second.At("dispositions").InnerTextAsync()).ShouldContain(manager.FullName);
    }

    [Fact]
    public async Task A_new_person_sets_the_own_password_with_the_code_that_the_administrator_hands_over()
    {
        await using var journey = await JourneyLaboratory.OpenAsync();
        await using var browser = await Browser.OpenAsync(journey.Program.Address);
        var administrator = await browser.SignOnAsync(journey.Small.People.Administrator);
        await administrator.OpenAsync("/people/new");
        await administrator.FillAsync("#full-name", "Olin Hart");
        await administrator.FillAsync("#sign-on-name", "olin.hart");
        await administrator.GetByLabel("Laboratory technician").CheckAsync();
        await administrator.At("create").ClickAsync();
        await administrator.At("issue-activation").ClickAsync();
        await administrator.SayWhyAsync("Begins on Monday");
        var code = (await administrator.At("activation").GetAttributeAsync("data-code"))!;
        (await administrator.Locator("main").RunAxe()).Violations.Select(violation => violation.Id).ShouldBeEmpty();

        var page = await browser.OpenPageAsync();
        await page.GotoAsync("/activate");
        await page.FillAsync("#name", "olin.hart");
        await page.FillAsync("#code", code.ToLowerInvariant());
        await page.FillAsync("#password", "nine slow barges turn west");
        await page.FillAsync("#again", "nine slow barges turn west");
        (await page.Locator("main").RunAxe()).Violations.Select(violation => violation.Id).ShouldBeEmpty();
        await page.At("activate").ClickAsync();
        await page.At("password-set").WaitForAsync();
        await page.FillAsync("#name", "olin.hart");
        await page.FillAsync("#password", "nine slow barges turn west");
        await page.ClickAsync("button[type=submit]");
        await page.WaitForURLAsync(url => !url.Contains("/sign-on", StringComparison.Ordinal));
        await page.GetByText("Olin Hart").First.WaitForAsync();
    }

    /// <summary>The code of a step from now.</summary>
    private static string CodeOf(string key, int steps) => new Totp(Base32Encoding.ToBytes(key)).ComputeTotp(TimeProvider.System.GetUtcNow().UtcDateTime.AddSeconds(30 * steps));

    // W3C Web Authentication, 11: a virtual authenticator that verifies its user.
    private static async Task AddAuthenticatorAsync(IPage page)
    {
        var devices = await page.Context.NewCDPSessionAsync(page);
        await devices.SendAsync("WebAuthn.enable");
        await devices.SendAsync("WebAuthn.addVirtualAuthenticator", new Dictionary<string, object>
        {
            ["options"] = new Dictionary<string, object>
            {
                ["protocol"] = "ctap2", ["transport"] = "internal", ["hasResidentKey"] = true, ["hasUserVerification"] = true, ["isUserVerified"] = true, ["automaticPresenceSimulation"] = true,
            },
        });
    }
}
