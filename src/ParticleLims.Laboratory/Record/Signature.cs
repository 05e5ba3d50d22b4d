using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Metadata.Builders;

namespace ParticleLims.Laboratory.Record;

/// <summary>Who, what it means, when, over exactly which content.</summary>
public sealed class Signature
{
    /// <summary>What stands behind the meaning where a one-person laboratory needed no second person.</summary>
    public const string OnePersonMark = "(one-person laboratory)";

    public Guid Id { get; init; }
    public Guid PersonId { get; init; }

    /// <summary>The printed name as it was at signing.</summary>
    public required string PrintedName { get; init; }

    /// <summary>The function, for example "Quality manager".</summary>
    public required string Function { get; init; }

    /// <summary>The meaning: performed, reviewed, approved, released, held, rejected, …</summary>
    public required string Meaning { get; init; }
    public DateTimeOffset At { get; init; }
    public required string SubjectKind { get; init; }
    public Guid SubjectId { get; init; }

    /// <summary>The canonical content that was shown and signed.</summary>
    public required string Content { get; init; }

    /// <summary>SHA-256 of <see cref="Content"/>, hexadecimal.</summary>
    public required string ContentHash { get; init; }
}

internal sealed class SignatureTable : IEntityTypeConfiguration<Signature>
{
    public void Configure(EntityTypeBuilder<Signature> builder)
    {
        builder.ToTable("signatures").HasKey(signature => signature.Id);
        builder.Property(signature => signature.ContentHash).HasMaxLength(64);
        builder.HasIndex(signature => signature.SubjectId);
    }
}

/// <summary>Proof that a person has just given the secret again; good for one signature of that person.</summary>
public sealed class SecretProof
{
    internal SecretProof(Guid personId) => PersonId = personId;

    internal Guid PersonId { get; }

    internal bool Used { get; set; }

    /// <summary>What the person has to do before the first signature; null where nothing stands in the way.</summary>
    internal RefusedException? NotYet { get; set; }

    /// <summary>Whose proof it is; it is used up by the question.</summary>
    /// <exception cref="RefusedException">It was used before.</exception>
    internal Guid Use()
    {
        if (Used)
        {
            throw new RefusedException("secret-not-proved", "Give the name and the password again.");
        }

        Used = true;
        return PersonId;
    }
}

/// <summary>What a person gives to prove who signs.</summary>
public abstract record GivenSecret
{
    /// <summary>A password is the usual secret.</summary>
    public static implicit operator GivenSecret(string password) => FromString(password);

    /// <summary>A password as a secret.</summary>
    public static GivenSecret FromString(string password) => new GivenPassword(password);
}

/// <summary>The password.</summary>
public sealed record GivenPassword(string Password) : GivenSecret
{
    /// <summary>Never the password itself: what is printed may be logged.</summary>
    public override string ToString() => "a password";
}

/// <summary>The answer of a passkey to a question that was asked just now.</summary>
/// <param name="Handle">Of the question.</param>
/// <param name="Answer">The browser's answer, as JSON.</param>
public sealed record GivenPasskey(string Handle, string Answer) : GivenSecret;

/// <summary>Asks a person for the secret. Implemented by People.</summary>
public interface ISecretCheck
{
    /// <summary>Proves the secret or refuses; failures are counted, throttled and recorded.</summary>
    /// <exception cref="RefusedException">Wrong, or too many wrong ones.</exception>
    Task<SecretProof> ProveAsync(Actor actor, GivenSecret given, CancellationToken cancellation);

    /// <summary>The same of somebody else at this terminal, by sign-on name, without signing them on.</summary>
    /// <param name="signOnName">Whose it is.</param>
    /// <param name="password">The password.</param>
    /// <param name="here">In whose session it is given.</param>
    /// <param name="cancellation">Ends the trying.</param>
    /// <exception cref="RefusedException">The same words for an unknown name and for a wrong password; or too many wrong ones.</exception>
    Task<SecretProof> ProveOtherAsync(string signOnName, string password, Actor here, CancellationToken cancellation);
}

/// <summary>Signing inside a deed.</summary>
public static class Signing
{
    /// <summary>Binds the person's signature to the content. The content is what the page showed.</summary>
    public static Signature Sign(this DeedScope scope, SecretProof proof, string meaning, (string Kind, Guid Id) subject, string content)
    {
        ArgumentNullException.ThrowIfNull(scope);
        ArgumentNullException.ThrowIfNull(proof);
        if (proof.Used || proof.PersonId != scope.PersonId)
        {
            throw new RefusedException("secret-not-proved", "A signature asks for your password or a passkey again.");
        }

        if (proof.NotYet is { } first)
        {
            throw first;
        }

        proof.Used = true;
        var signature = new Signature
        {
            Id = scope.NewId(), PersonId = scope.PersonId, PrintedName = scope.By.Name, Function = scope.By.Function, Meaning = scope.Marked(meaning), At = scope.Now,
            SubjectKind = subject.Kind, SubjectId = subject.Id, Content = content, ContentHash = RecordChain.HashOf(content),
        };
        scope.Data.Add(signature);
        return signature;
    }
}
