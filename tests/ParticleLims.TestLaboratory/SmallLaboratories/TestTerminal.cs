using ParticleLims.Laboratory.People;
using ParticleLims.Laboratory.Record;
using ParticleLims.Laboratory.Terminals;

namespace ParticleLims.TestLaboratory.SmallLaboratories;

/// <summary>An enrolled terminal of the small laboratory.</summary>
/// <param name="laboratory">The laboratory.</param>
/// <param name="secret">What the browser keeps.</param>
/// <param name="row">How it is enrolled.</param>
public sealed class TestTerminal(SmallLaboratory laboratory, string secret, TerminalRow row)
{
    /// <summary>What the browser keeps.</summary>
    public string Secret => secret;

    /// <summary>The terminal as the services see it.</summary>
    public TerminalSeen Seen { get; } = new(row.Name, row.Id);

    /// <summary>Somebody signs on with the PIN, by name or by badge, and acts here.</summary>
    public async Task<Actor> SignOnAsync(TestPerson person, string pin, Guid? badge = null)
    {
        ArgumentNullException.ThrowIfNull(person);
        var signedOn = await laboratory.Get<PinSignOn>().SignOnAsync(Seen, person.Id, badge, pin, CancellationToken.None);
        return new Actor(person.Id, "T-0000", signedOn.SessionId);
    }

    /// <summary>Somebody signs on with the password and acts here.</summary>
    public async Task<Actor> SignOnWithPasswordAsync(TestPerson person)
    {
        ArgumentNullException.ThrowIfNull(person);
        var signedOn = await laboratory.Get<SignOn>().SignOnAsync(person.SignOnName, person.Password, Seen, CancellationToken.None);
        return new Actor(person.Id, "T-0000", signedOn.SessionId);
    }
}
