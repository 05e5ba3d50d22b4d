using System.Text.Json;
using Microsoft.AspNetCore.Identity;
using Microsoft.Extensions.Options;
using ParticleLims.Laboratory.People;

namespace ParticleLims.Web.People;

/// <summary>The questions to a browser and the check of its answers, by the framework's own implementation of Web Authentication.</summary>
internal sealed class PasskeyCeremony(IServiceProvider services) : IPasskeyCeremony
{
    public async Task<PasskeyAsked> AskNewAsync(PasskeyPlace place, Person person, IReadOnlyList<Passkey> has)
    {
        var asked = await Handler(person, has).MakeCreationOptionsAsync(new PasskeyUserEntity { Id = person.Id.ToString("D"), Name = person.UserName!, DisplayName = person.FullName }, Seen(place));
        return new PasskeyAsked(asked.CreationOptionsJson, asked.AttestationState!);
    }

    public async Task<PasskeyFacts?> NewAsync(PasskeyPlace place, Person person, string state, string answer)
    {
        var made = await Handler(person, []).PerformAttestationAsync(new PasskeyAttestationContext { CredentialJson = answer, AttestationState = state, HttpContext = Seen(place) });
        return made.Succeeded ? Facts(made.Passkey) : null;
    }

    public async Task<PasskeyAsked> AskAsync(PasskeyPlace place, Person? person, IReadOnlyList<Passkey> has)
    {
        var asked = await Handler(person, has).MakeRequestOptionsAsync(person, Seen(place));
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
        var checkedOne = await Handler(person, [passkey]).PerformAssertionAsync(new PasskeyAssertionContext { CredentialJson = answer, AssertionState = state, HttpContext = Seen(place) });
        return checkedOne.Succeeded && checkedOne.User.Id == person.Id ? Facts(checkedOne.Passkey) : null;
    }

    private static PasskeyFacts Facts(UserPasskeyInfo made) =>
        new(made.CredentialId, made.PublicKey, made.SignCount, string.Join(',', made.Transports ?? []), made.IsBackupEligible, made.IsBackedUp);

    // The handler reads nothing of a request but where the browser says it is; a circuit has no request.
    private static DefaultHttpContext Seen(PasskeyPlace place)
    {
        var context = new DefaultHttpContext();
        (context.Request.Scheme, context.Request.Host) = (place.Origin.Scheme, new HostString(place.Origin.Authority));
        return context;
    }

    private PasskeyHandler<Person> Handler(Person? person, IReadOnlyList<Passkey> has)
    {
        var users = new UserManager<Person>(
            new PasskeyOwner(person, has), Options.Create(new IdentityOptions()), new PasswordHasher<Person>(), [], [], new UpperInvariantLookupNormalizer(), new IdentityErrorDescriber(), services,
            services.GetRequiredService<ILogger<UserManager<Person>>>());
        return new PasskeyHandler<Person>(users, Options.Create(new IdentityPasskeyOptions { UserVerificationRequirement = "required", ResidentKeyRequirement = "required", AuthenticatorTimeout = TimeSpan.FromMinutes(4) }));
    }
}
