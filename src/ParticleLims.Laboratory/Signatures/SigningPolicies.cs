using Microsoft.EntityFrameworkCore;
using ParticleLims.Laboratory.Record;
using ParticleLims.Laboratory.Settings;
using ParticleLims.Laboratory.Storage;

namespace ParticleLims.Laboratory.Signatures;

/// <summary>The signing policy: read, added to by the laboratory, accepted by everybody who signs.</summary>
public sealed class SigningPolicies(WritePath writing, ReadPath reading)
{
    /// <summary>The most letters of the laboratory's addition.</summary>
    public const int LongestAddition = 2_000;

    private static readonly DeedKind AcceptDeed = new("signatures.accept-policy", "Signing policy accepted", null);
    private static readonly DeedKind AddDeed = new("signatures.change-policy", "Laboratory's addition to the signing policy changed", Permission.KeepSettings, ReasonRequired: true);

    /// <summary>The policy as it is now. Anybody may read it.</summary>
    public Task<SigningPolicy> FindAsync(CancellationToken cancellation) => reading.ReadOpenlyAsync(NowAsync, cancellation);

    /// <summary>The present policy where the actor has still to accept it; null where they have, or are nobody who signs.</summary>
    public async Task<SigningPolicy?> OpenAsync(Actor actor, CancellationToken cancellation)
    {
        var person = (await reading.StandingOfAsync(actor, cancellation)).PersonId;
        return person is not { } id ? null : await reading.ReadOpenlyAsync(async (data, token) =>
        {
            var policy = await NowAsync(data, token);
            return await IsAcceptedAsync(data, id, policy, token) ? null : policy;
        }, cancellation);
    }

    /// <summary>A person accepts the policy, with the password.</summary>
    /// <param name="actor">The person.</param>
    /// <param name="number">The version that was shown.</param>
    /// <param name="proof">The password given again.</param>
    /// <param name="cancellation">Ends the deed before it is written.</param>
    public Task<bool> AcceptAsync(Actor actor, string number, SecretProof proof, CancellationToken cancellation) =>
        writing.CarryOutAsync(new Deed(AcceptDeed, actor), async (scope, token) =>
        {
            ArgumentNullException.ThrowIfNull(proof);
            var (person, policy) = (scope.PersonId, await NowAsync(scope.Data, token));
            if (proof.Used || proof.PersonId != person)
            {
                throw new RefusedException("secret-not-proved", "Accepting the signing policy asks for your password again.");
            }

            if (policy.Number != number)
            {
                throw new StaleVersionException("The signing policy");
            }

            proof.Used = true;
            scope.Data.Add(new SigningAcceptance { Id = scope.NewId(), PersonId = person, PolicyNumber = policy.Number, TextHash = policy.TextHash, At = scope.Now, Terminal = scope.Terminal });
            scope.About("Person", person, $"{scope.By.Name}, signing policy {policy.Number}");
            return true;
        }, cancellation);

    /// <summary>Changes the laboratory's own words; everybody is asked again before their next signature.</summary>
    /// <param name="actor">The administrator.</param>
    /// <param name="words">The words; empty for none.</param>
    /// <param name="reason">Why.</param>
    /// <param name="number">The policy's version as it was read.</param>
    /// <param name="cancellation">Ends the deed before it is written.</param>
    public Task<bool> ChangeAdditionAsync(Actor actor, string words, string reason, string number, CancellationToken cancellation) =>
        writing.CarryOutAsync(new Deed(AddDeed, actor, Reason: reason), async (scope, token) =>
        {
            ArgumentNullException.ThrowIfNull(words);
            var (added, newest) = (words.Trim(), await NewestAsync(scope.Data, token));
            if (SigningPolicy.Of(newest).Number != number)
            {
                throw new StaleVersionException("The signing policy");
            }

            if (added.Length > LongestAddition || added == (newest?.Words ?? string.Empty))
            {
                throw new RefusedException("policy-addition", $"The addition has at most {LongestAddition} letters and says something else than before: whoever signs is asked again.", "addition");
            }

            scope.Data.Add(new SigningPolicyAddition { Number = (newest?.Number ?? 0) + 1, Words = added, At = scope.Now, PersonName = scope.By.Name });
            scope.About("Laboratory", LaboratorySettings.OnlyId, "Signing policy");
            return true;
        }, cancellation);

    internal static async Task<SigningPolicy> NowAsync(LaboratoryContext data, CancellationToken cancellation) => SigningPolicy.Of(await NewestAsync(data, cancellation));

    internal static Task<bool> IsAcceptedAsync(LaboratoryContext data, Guid personId, SigningPolicy policy, CancellationToken cancellation)
    {
        var (number, hash) = (policy.Number, policy.TextHash);
        return data.Set<SigningAcceptance>().AnyAsync(one => one.PersonId == personId && one.PolicyNumber == number && one.TextHash == hash, cancellation);
    }

    private static Task<SigningPolicyAddition?> NewestAsync(LaboratoryContext data, CancellationToken cancellation) =>
        data.Set<SigningPolicyAddition>().AsNoTracking().OrderByDescending(one => one.Number).FirstOrDefaultAsync(cancellation);
}
