using System.Text.Json;
using Microsoft.AspNetCore.Identity;
using Microsoft.Extensions.Options;
using ParticleLims.Laboratory.People;

namespace ParticleLims.Web.People;

/// <summary>The questions to a browser and the check of its answers, by the framework's own implementation of Web Authentication.</summary>
internal sealed class PasskeyCeremony(IServiceProvider services, ILogger<PasskeyCeremony> logger) : IPasskeyCeremony
{
    public async Task<PasskeyAsked> AskNewAsync(PasskeyPlace place, Person person, IReadOnlyList<Passkey> has)
    {
        var asked = await Handler(place, person, has).MakeCreationOptionsAsync(new PasskeyUserEntity { Id = person.Id.ToString("D"), Name = person.UserName!, DisplayName = person.FullName }, new DefaultHttpContext());
        return new PasskeyAsked(asked.CreationOptionsJson, asked.AttestationState!);
    }

    public async Task<PasskeyFacts?> NewAsync(PasskeyPlace place, Person person, string state, string answer)
    {
        var made = await Handler(place, person, []).PerformAttestationAsync(new PasskeyAttestationContext { CredentialJson = answer, AttestationState = state, HttpContext = new DefaultHttpContext() });
        return made.Succeeded ? Facts(made.Passkey) : Refused(made.Failure);
    }

    public async Task<PasskeyAsked> AskAsync(PasskeyPlace place, Person? person, IReadOnlyList<Passkey> has)
    {
        var asked = await Handler(place, person, has).MakeRequestOptionsAsync(person, new DefaultHttpContext());
        return new PasskeyAsked(asked.RequestOptionsJson, asked.AssertionState!);
    }

    public byte[]? Named(string answer)
    {
        try
        {
            using var json = JsonDocument.Parse(answer);
            return json.RootElement.TryGetProperty("id", out var id) && id.ValueKind == JsonValueKind.String ? System.Buffers.Text.Base64Url.DecodeFromChars(id.GetString()) : null;
        }
        catch (Exception fault) when (fault is JsonException or FormatException or InvalidOperationException)
        {
            return null;
        }
    }

    public async Task<PasskeyFacts?> CheckAsync(PasskeyPlace place, Person person, Passkey passkey, string state, string answer)
    {
        var checkedOne = await Handler(place, person, [passkey]).PerformAssertionAsync(new PasskeyAssertionContext { CredentialJson = answer, AssertionState = state, HttpContext = new DefaultHttpContext() });
        return !checkedOne.Succeeded ? Refused(checkedOne.Failure) : checkedOne.User.Id == person.Id ? Facts(checkedOne.Passkey) : null;
    }

    // What exactly was wrong is for the operator; the person hears the same words for everything.
    private PasskeyFacts? Refused(PasskeyException fault)
    {
        logger.LogWarning(fault, "A passkey was refused");
        return null;
    }

    private static PasskeyFacts Facts(UserPasskeyInfo made) =>
        new(made.CredentialId, made.PublicKey, made.SignCount, string.Join(',', made.Transports ?? []), made.IsBackupEligible, made.IsBackedUp);

    private PasskeyHandler<Person> Handler(PasskeyPlace place, Person? person, IReadOnlyList<Passkey> has)
    {
        var users = new UserManager<Person>(
            new PasskeyOwner(person, has), Options.Create(new IdentityOptions()), new PasswordHasher<Person>(), [], [], new UpperInvariantLookupNormalizer(), new IdentityErrorDescriber(), services,
            services.GetRequiredService<ILogger<UserManager<Person>>>());
        return new PasskeyHandler<Person>(users, Options.Create(new IdentityPasskeyOptions
        {
            ServerDomain = place.Origin.Host,
            UserVerificationRequirement = "required",
            ResidentKeyRequirement = "required",
            AuthenticatorTimeout = TimeSpan.FromMinutes(4),

            // A circuit has no request of which the framework could read where it is: the place is told.
            ValidateOrigin = seen => ValueTask.FromResult(!seen.CrossOrigin && Uri.TryCreate(seen.Origin, UriKind.Absolute, out var origin) && origin == place.Origin),
        }));
    }
}
