using Microsoft.AspNetCore.Identity;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.Extensions.DependencyInjection.Extensions;
using ParticleLims.Laboratory.People;
using ParticleLims.TestLaboratory;
using ParticleLims.TestLaboratory.SmallLaboratories;
using ParticleLims.Web.Shell;
using ParticleLims.Web.Tests.Shell;
using Shouldly;

namespace ParticleLims.Web.Tests.Terminals;

/// <summary>The running program with the small laboratory in it, whose people all have a PIN.</summary>
public sealed class BenchWeb : IAsyncDisposable
{
    /// <summary>Everybody's PIN, so that a mistake shows as the wrong person and not as a wrong PIN.</summary>
    public const string Pin = "482913";

    private BenchWeb(RunningWeb web, SmallLaboratory small) => (Web, Small) = (web, small);

    /// <summary>The program.</summary>
    public RunningWeb Web { get; }

    /// <summary>What is in it.</summary>
    public SmallLaboratory Small { get; }

    /// <summary>Starts it. Hashing is quick, and one address may sign on as often as the test does.</summary>
    public static async Task<BenchWeb> StartAsync(Action<IServiceCollection>? change = null)
    {
        var web = await RunningWeb.StartAsync(services =>
        {
            services.Replace(ServiceDescriptor.Singleton<IPasswordHasher<Person>, QuickHasher>());
            change?.Invoke(services);
        }, "--RateLimits:SignOn=1000000");
        var small = await SmallLaboratory.SetUpAsync(web.Services);
        foreach (var person in (TestPerson[])[small.People.Technician, small.People.SecondTechnician, small.People.Reviewer])
        {
            await small.SetPinAsync(person, Pin);
        }

        return new BenchWeb(web, small);
    }

    /// <summary>The browser of an enrolled terminal.</summary>
    public async Task<Visitor> EnrolledAsync(string name)
    {
        var visitor = new Visitor(Web);
        visitor.Cookies.Add(Web.Address, new System.Net.Cookie(TerminalCookie.SecretName, (await Small.EnrolAsync(name)).Secret));
        return visitor;
    }

    /// <summary>Somebody chooses their name and gives the PIN.</summary>
    public static async Task SignOnAsync(Visitor visitor, TestPerson person, string to = "/")
    {
        ArgumentNullException.ThrowIfNull(visitor);
        ArgumentNullException.ThrowIfNull(person);
        using var answer = await visitor.PostAsync($"/sign-on?person={person.Id}", "/sign-on/pin", ("person", person.Id.ToString()), ("pin", Pin), ("to", to));
        answer.Headers.Location!.ToString().ShouldBe(to);
    }

    /// <inheritdoc />
    public ValueTask DisposeAsync() => Web.DisposeAsync();
}
