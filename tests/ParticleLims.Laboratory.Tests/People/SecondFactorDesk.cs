using OtpNet;
using ParticleLims.Laboratory.People;
using ParticleLims.Laboratory.Record;
using ParticleLims.Laboratory.Terminals;

namespace ParticleLims.Laboratory.Tests.People;

/// <summary>A person with an authenticator and a device for passkeys, in front of an office browser.</summary>
internal sealed class SecondFactorDesk(OpenedSmallLaboratory laboratory, TestPerson person)
{
    private static readonly PasskeyPlace Place = new(new Uri("https://lab.tarnfell.example"));
    private int answers;

    /// <summary>The key of the authenticator.</summary>
    public string Key { get; private set; } = string.Empty;

    /// <summary>The browser.</summary>
    public static TerminalSeen Office { get; } = new("Office");

    /// <summary>The code that the authenticator shows now.</summary>
    public string Code => new Totp(Base32Encoding.ToBytes(Key)).ComputeTotp(laboratory.Running.Clock.GetUtcNow().UtcDateTime);

    /// <summary>Refused in words. Unlike every other refusal this one leaves something: wrong secrets are counted.</summary>
    public static async Task ShouldRefuseAsync(string code, Func<Task> act) => (await Should.ThrowAsync<RefusedException>(act)).Code.ShouldBe(code);

    /// <summary>Switches one-time codes on; answers the recovery codes. A step later the next code can be given.</summary>
    public async Task<IReadOnlyList<string>> SetUpCodesAsync()
    {
        var factors = laboratory.Get<SecondFactors>();
        Key = (await factors.MakeCodeKeyAsync(person.Actor, await laboratory.Small.ProofAsync(person), default)).Key;
        var recovery = await factors.ConfirmCodeKeyAsync(person.Actor, Code, default);
        laboratory.Running.Clock.Advance(TimeSpan.FromSeconds(60));
        return recovery;
    }

    /// <summary>Gives the name and the password; the second step is asked for.</summary>
    public async Task<string> FirstStepAsync() => (await Should.ThrowAsync<SecondStepException>(() => laboratory.Get<SignOn>().SignOnAsync(person.SignOnName, person.Password, Office, default))).Handle;

    /// <summary>Signs on with both steps.</summary>
    public async Task<Actor> SignOnAsync(string? code = null)
    {
        var handle = await FirstStepAsync();
        var signedOn = await laboratory.Get<SecondStep>().FinishAsync(handle, code ?? Code, Office, default);
        return new Actor(person.Id, Office.Name, signedOn.SessionId);
    }

    /// <summary>Adds a passkey; answers the recovery codes.</summary>
    public async Task<IReadOnlyList<string>> AddPasskeyAsync(byte[] credential)
    {
        var keys = laboratory.Get<Passkeys>();
        var question = await keys.AskNewAsync(person.Actor, await laboratory.Small.ProofAsync(person), Place, default);
        return await keys.AddAsync(person.Actor, Answer(question, credential), "Key ring", default);
    }

    /// <summary>Signs on with a passkey.</summary>
    public async Task<SignedOn> SignOnAsync(byte[] credential, long? count = null)
    {
        var question = await laboratory.Get<Passkeys>().AskAsync(Place, default);
        return await laboratory.Get<Passkeys>().SignOnAsync(Answer(question, credential, count), Office, default);
    }

    /// <summary>What the device answers to the question of a signature.</summary>
    public async Task<GivenPasskey> ForSignatureAsync(byte[] credential, Actor? asked = null) =>
        Answer((await laboratory.Get<Passkeys>().AskOwnAsync(asked ?? person.Actor, Place, default))!, credential);

    private GivenPasskey Answer(PasskeyQuestion question, byte[] credential, long? count = null) =>
        new(question.Handle, PlainBrowser.Answer(question, credential, count ?? ++answers));
}
