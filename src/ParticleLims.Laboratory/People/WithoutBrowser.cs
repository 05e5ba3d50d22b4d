namespace ParticleLims.Laboratory.People;

/// <summary>Where no browser is served, as in a command: nobody has a passkey or an authenticator there.</summary>
internal sealed class WithoutBrowser : IPasskeyCeremony, ISecretSealing
{
    public Task<PasskeyAsked> AskNewAsync(PasskeyPlace place, Person person, IReadOnlyList<Passkey> has) => throw NotHere();

    public Task<PasskeyFacts?> NewAsync(PasskeyPlace place, Person person, string state, string answer) => throw NotHere();

    public Task<PasskeyAsked> AskAsync(PasskeyPlace place, Person? person, IReadOnlyList<Passkey> has) => throw NotHere();

    public byte[]? Named(string answer) => throw NotHere();

    public Task<PasskeyFacts?> CheckAsync(PasskeyPlace place, Person person, Passkey passkey, string state, string answer) => throw NotHere();

    public string Seal(string secret) => throw NotHere();

    public string? Open(string sealedSecret) => throw NotHere();

    private static InvalidOperationException NotHere() => new("Second factors are asked where browsers are served.");
}
