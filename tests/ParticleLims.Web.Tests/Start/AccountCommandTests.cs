using ParticleLims.TestLaboratory.Databases;
using ParticleLims.Web.Start;
using ParticleLims.Web.Tests.Shell;
using Shouldly;
using Xunit;

namespace ParticleLims.Web.Tests.Start;

/// <summary>The way back of a last administrator who has lost the password.</summary>
public sealed class AccountCommandTests : IAsyncLifetime
{
    private const string Chosen = "nine slow barges turn west";
    private readonly DirectoryInfo place = Directory.CreateTempSubdirectory("particlelims-account-");

    public async ValueTask InitializeAsync()
    {
        await (await (await RunningWeb.StartAsync("--data", place.FullName)).SetUpAsync()).DisposeAsync();
        SqlitePools.LetGoIn(place);
    }

    public ValueTask DisposeAsync()
    {
        SqlitePools.LetGoIn(place);
        place.Delete(recursive: true);
        return ValueTask.CompletedTask;
    }

    [Fact]
    public async Task The_code_of_the_console_opens_the_account_under_a_new_password_and_the_old_one_is_gone()
    {
        var (status, said) = await SayAsync("admin");
        status.ShouldBe(0, said);
        var code = string.Concat(said.Split("   ")[1].Where(char.IsAsciiLetter));
        code.Length.ShouldBe(20);

        await using var web = await RunningWeb.StartAsync("--data", place.FullName);
        using var visitor = new Visitor(web);
        using (var refused = await visitor.SignOnAsync("admin", "seven blue kettles sing"))
        {
            refused.Headers.Location!.OriginalString.ShouldStartWith("/sign-on");
        }

        using (var set = await visitor.PostAsync("/activate", "/activate", ("name", "admin"), ("code", code), ("password", Chosen), ("again", Chosen)))
        {
            set.Headers.Location!.OriginalString.ShouldBe("/sign-on?with=password&set=true");
        }

        using var signedOn = await visitor.SignOnAsync("admin", Chosen);
        signedOn.Headers.Location!.OriginalString.ShouldBe("/");
    }

    [Fact]
    public async Task A_refused_password_leaves_the_sign_on_name_that_was_typed_and_nothing_secret()
    {
        var (_, said) = await SayAsync("admin");
        var code = string.Concat(said.Split("   ")[1].Where(char.IsAsciiLetter));
        await using var web = await RunningWeb.StartAsync("--data", place.FullName);
        using var visitor = new Visitor(web);
        using (var refused = await visitor.PostAsync("/activate", "/activate", ("name", "admin"), ("code", code), ("password", "too short"), ("again", "too short")))
        {
            refused.Headers.Location!.OriginalString.ShouldBe("/activate");
        }

        using var shown = await visitor.OpenAsync("/activate");
        var html = await shown.Content.ReadAsStringAsync();
        Visitor.RefusalIn(html).ShouldNotBeNull();
        html.ShouldContain("name=\"name\" type=\"text\" value=\"admin\"");
        html.ShouldNotContain(code);
        html.ShouldNotContain("too short\"");
        using var again = await visitor.OpenAsync("/activate");
        (await again.Content.ReadAsStringAsync()).ShouldNotContain("value=\"admin\"", Case.Sensitive, "it is kept once");
    }

    [Fact]
    public async Task An_unknown_name_and_a_missing_database_are_said_in_words()
    {
        (await SayAsync("nobody.known")).ShouldBe((2, $"No code was issued: There is no active account “nobody.known”.{Environment.NewLine}"));
        await using var output = new StringWriter();
        (await AccountCommand.Read(["activate", "admin", "--data", Path.Combine(place.FullName, "elsewhere")])!(output)).ShouldBe(2);
        output.ToString().ShouldContain("There is no database");
    }

    private async Task<(int Status, string Said)> SayAsync(string name)
    {
        await using var output = new StringWriter();
        var status = await AccountCommand.Read(["activate", name, "--data", place.FullName])!(output);
        return (status, output.ToString());
    }
}
