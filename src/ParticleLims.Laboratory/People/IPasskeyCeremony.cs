namespace ParticleLims.Laboratory.People;

/// <summary>The address at which a browser shows the laboratory: a passkey belongs to its host.</summary>
/// <param name="Origin">Scheme, host and port, as the browser says it.</param>
public sealed record PasskeyPlace(Uri Origin);

/// <summary>What a browser is asked, and what must be known again when it answers.</summary>
/// <param name="Options">For the browser, as JSON.</param>
/// <param name="State">For the check of the answer.</param>
public sealed record PasskeyAsked(string Options, string State);

/// <summary>What is known of a passkey after an answer.</summary>
/// <param name="CredentialId">The name that the device gave it.</param>
/// <param name="PublicKey">COSE-encoded.</param>
/// <param name="SignCount">The device's count.</param>
/// <param name="Transports">How the device is reached.</param>
/// <param name="BackupEligible">Whether it may be copied to other devices of its owner.</param>
/// <param name="BackedUp">Whether it was.</param>
public sealed record PasskeyFacts(byte[] CredentialId, byte[] PublicKey, long SignCount, string Transports, bool BackupEligible, bool BackedUp);

/// <summary>The questions to a browser and the check of its answers (W3C Web Authentication Level 3, 7.1 and 7.2). Implemented where browsers are served.</summary>
public interface IPasskeyCeremony
{
    /// <summary>Asks for a new passkey of a person; a device that holds one of theirs already is not asked.</summary>
    Task<PasskeyAsked> AskNewAsync(PasskeyPlace place, Person person, IReadOnlyList<Passkey> has);

    /// <summary>The new passkey; null when the answer is not one to the question.</summary>
    Task<PasskeyFacts?> NewAsync(PasskeyPlace place, Person person, string state, string answer);

    /// <summary>Asks for one of a person's passkeys, or for any when nobody is named.</summary>
    Task<PasskeyAsked> AskAsync(PasskeyPlace place, Person? person, IReadOnlyList<Passkey> has);

    /// <summary>The credential that an answer names, before anything is checked; null where it names none.</summary>
    byte[]? Named(string answer);

    /// <summary>The passkey after its answer; null when the answer is not one to the question, by this passkey, of this person.</summary>
    Task<PasskeyFacts?> CheckAsync(PasskeyPlace place, Person person, Passkey passkey, string state, string answer);
}
