using ParticleLims.TestLaboratory.Databases;
using ParticleLims.Web.Start;
using Shouldly;
using Xunit;

namespace ParticleLims.Web.Tests.Start;

public sealed class StartTests
{
    [Fact]
    public void The_command_line_says_where_and_what()
    {
        var options = StartOptions.Read(["--demo", "--data", "/tmp/mill", "--urls", "http://127.0.0.1:9"]);
        options.Demonstration.ShouldBeTrue();
        options.DatabaseFile.ShouldEndWith("demonstration.db");
        options.Rest.ShouldBe(["--urls", "http://127.0.0.1:9"]);
    }

    [Fact]
    public void The_practice_laboratory_has_a_database_and_an_access_file_of_its_own()
    {
        var options = StartOptions.Read(["--practice", "--data", "/tmp/mill"]);
        (options.Practice, options.Demonstration).ShouldBe((true, true), "its balance is simulated too");
        options.DatabaseFile.ShouldEndWith("practice.db");
        options.AccessFile.ShouldEndWith("practice-access.txt");
        Should.Throw<StartRefusedException>(() => StartOptions.Read(["--practice", "--demo"])).Message.ShouldContain("two laboratories");
        StartOptions.Read([], name => name == "PARTICLELIMS_PRACTICE" ? "https://practice.tarnfell.example" : null).PracticeAddress!.Host.ShouldBe("practice.tarnfell.example");
        Should.Throw<StartRefusedException>(() => StartOptions.Read([], name => name == "PARTICLELIMS_PRACTICE" ? "practice" : null)).Message.ShouldContain("“practice”");
    }

    [Theory]
    [InlineData("--practice", "practice.db")]
    [InlineData("--demo", "demonstration.db")]
    public async Task Practice_and_demonstration_never_open_a_real_laboratory(string option, string file)
    {
        var folder = Directory.CreateTempSubdirectory("particlelims-start-");
        try
        {
            await (await (await RunningWeb.StartAsync("--data", folder.FullName)).SetUpAsync()).DisposeAsync();
            SqlitePools.LetGoIn(folder);
            File.Move(Path.Combine(folder.FullName, "laboratory.db"), Path.Combine(folder.FullName, file));
            (await Should.ThrowAsync<StartRefusedException>(() => RunningWeb.StartAsync(option, "--data", folder.FullName))).Message.ShouldStartWith("This database holds a real laboratory.");
        }
        finally
        {
            SqlitePools.LetGoIn(folder);
            await Task.Run(() => folder.Delete(recursive: true), CancellationToken.None);
        }
    }

    [Theory]
    [InlineData("--data", "The option --data needs a value after it.")]
    [InlineData("--frob", "There is no option --frob.")]
    [InlineData("demo", "There is no option demo.")]
    public void What_it_does_not_understand_it_refuses_in_words(string argument, string words) =>
        Should.Throw<StartRefusedException>(() => StartOptions.Read([argument])).Message.ShouldStartWith(words);

    [Fact]
    public void The_environment_gives_what_should_not_stand_in_a_list_of_processes()
    {
        var options = StartOptions.Read([], name => name switch { "PARTICLELIMS_DATABASE" => "Host=db", "PARTICLELIMS_PROXY" => "172.18.0.0/16", _ => null });
        options.DatabaseConnection.ShouldBe("Host=db");
        options.Proxy!.Value.PrefixLength.ShouldBe(16);
        Should.Throw<StartRefusedException>(() => StartOptions.Read([], name => name == "PARTICLELIMS_PROXY" ? "the proxy" : null)).Message.ShouldContain("“the proxy”");
    }

    [Fact]
    public async Task A_second_program_on_the_same_laboratory_is_refused_until_the_first_has_ended()
    {
        var folder = Directory.CreateTempSubdirectory("particlelims-start-");
        try
        {
            var options = StartOptions.Read(["--data", folder.FullName]);
            using (var first = new DataFolder(options))
            {
                first.Take();
                using var second = new DataFolder(options);
                Should.Throw<StartRefusedException>(second.Take).Message.ShouldStartWith("Another program has this laboratory open");
            }

            using var later = new DataFolder(options);
            later.Take();
        }
        finally
        {
            await Task.Run(() => folder.Delete(recursive: true), CancellationToken.None);
        }
    }

    [Fact]
    public async Task An_address_that_is_taken_is_said_in_words()
    {
        await using var web = await RunningWeb.StartAsync();
        var fault = await Should.ThrowAsync<IOException>(() => RunningWeb.StartAsync("--urls", web.Address.ToString()));
        WebProgram.Words(fault)!.ShouldEndWith("Choose another with --urls.");
    }

    [Fact]
    public async Task A_database_server_that_is_not_there_is_said_in_words()
    {
        var fault = await Should.ThrowAsync<InvalidOperationException>(() => RunningWeb.StartAsync("--database", "Host=127.0.0.1;Port=1;Database=none;Username=none"));
        WebProgram.Words(fault)!.ShouldStartWith("The database does not open: Failed to connect to 127.0.0.1:1");
    }

    [Fact]
    public async Task It_says_whether_it_lives_and_whether_it_is_ready()
    {
        await using var web = await RunningWeb.StartAsync();
        (await web.Client.GetStringAsync("/health/live")).ShouldBe("live");
        (await web.Client.GetStringAsync("/health/ready")).ShouldBe("ready, waiting to be set up");
        await web.SetUpAsync();
        (await web.Client.GetStringAsync("/health/ready")).ShouldBe("ready");
    }
}
