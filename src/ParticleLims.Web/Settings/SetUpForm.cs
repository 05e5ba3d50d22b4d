using ParticleLims.Laboratory.People;
using ParticleLims.Laboratory.Record;
using ParticleLims.Laboratory.Settings;

namespace ParticleLims.Web.Settings;

/// <summary>What the form for setting up a laboratory asks.</summary>
public sealed class SetUpForm
{
    /// <summary>The secret part of the one-time link.</summary>
    public string? Link { get; set; }
    public string? Laboratory { get; set; }
    public string? Address { get; set; }
    public string? Contact { get; set; }

    /// <summary>IANA name.</summary>
    public string? TimeZone { get; set; }
    public string? PublicAddress { get; set; }
    public string? FullName { get; set; }
    public string? SignOnName { get; set; }
    public string? Password { get; set; }
    public string? PasswordAgain { get; set; }

    /// <summary>The laboratory's identity as typed.</summary>
    public LaboratoryIdentity Identity() => new(Laboratory ?? string.Empty, Address ?? string.Empty, Contact ?? string.Empty, TimeZone ?? string.Empty, PublicAddress ?? string.Empty);

    /// <summary>The first administrator as typed.</summary>
    /// <exception cref="RefusedException">The two passwords differ.</exception>
    public NewPerson Administrator() => Password == PasswordAgain
        ? new NewPerson(SignOnName ?? string.Empty, FullName ?? string.Empty, [Role.Administrator], Password ?? string.Empty)
        : throw new RefusedException("password-again", "The two passwords are not the same. Type both again.", "passwordAgain");
}
