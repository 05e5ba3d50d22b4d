using System.Globalization;
using System.Text.Json;
using ParticleLims.Laboratory.People;

namespace ParticleLims.TestLaboratory;

/// <summary>Devices without cryptography: the answer repeats the question's state and names the credential. What a real browser answers is proved in Chromium.</summary>
public sealed class PlainBrowser : IPasskeyCeremony, ISecretSealing
{
    private int asked;

    /// <summary>The answer of a device to a question: the question's options are its state.</summary>
    /// <param name="question">The question.</param>
    /// <param name="credential">The name of the credential.</param>
    /// <param name="count">How often the device says it has answered.</param>
    public static string Answer(PasskeyQuestion question, byte[] credential, long count) =>
        JsonSerializer.Serialize(new Said(question.Options, Convert.ToHexString(credential), count));

    /// <inheritdoc />
    public Task<PasskeyAsked> AskNewAsync(PasskeyPlace place, Person person, IReadOnlyList<Passkey> has) => Task.FromResult(Ask());

    /// <inheritdoc />
    public Task<PasskeyFacts?> NewAsync(PasskeyPlace place, Person person, string state, string answer) => Task.FromResult(Facts(state, answer));

    /// <inheritdoc />
    public Task<PasskeyAsked> AskAsync(PasskeyPlace place, Person? person, IReadOnlyList<Passkey> has) => Task.FromResult(Ask());

    /// <inheritdoc />
    public byte[]? Named(string answer) => Read(answer) is { } said ? Convert.FromHexString(said.Credential) : null;

    /// <inheritdoc />
    public Task<PasskeyFacts?> CheckAsync(PasskeyPlace place, Person person, Passkey passkey, string state, string answer) => Task.FromResult(Facts(state, answer));

    /// <inheritdoc />
    public string Seal(string secret) => "sealed " + secret;

    /// <inheritdoc />
    public string? Open(string sealedSecret) => sealedSecret.StartsWith("sealed ", StringComparison.Ordinal) ? sealedSecret[7..] : null;

    private static PasskeyFacts? Facts(string state, string answer) =>
        Read(answer) is { } said && said.State == state ? new PasskeyFacts(Convert.FromHexString(said.Credential), [1, 2, 3], said.Count, "internal", true, false) : null;

    private static Said? Read(string answer)
    {
        try
        {
            return JsonSerializer.Deserialize<Said>(answer);
        }
        catch (JsonException)
        {
            return null;
        }
    }

    private PasskeyAsked Ask()
    {
        var number = Interlocked.Increment(ref asked).ToString(CultureInfo.InvariantCulture);
        return new PasskeyAsked(number, number);
    }

    private sealed record Said(string State, string Credential, long Count);
}
