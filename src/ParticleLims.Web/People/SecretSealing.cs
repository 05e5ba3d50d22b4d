using System.Security.Cryptography;
using Microsoft.AspNetCore.DataProtection;
using ParticleLims.Laboratory.People;

namespace ParticleLims.Web.People;

/// <summary>Seals with the keys of the installation, which lie in the data folder and not in the database.</summary>
internal sealed class SecretSealing(IDataProtectionProvider protection) : ISecretSealing
{
    private readonly IDataProtector seal = protection.CreateProtector("one-time code keys");

    public string Seal(string secret) => seal.Protect(secret);

    public string? Open(string sealedSecret)
    {
        try
        {
            return seal.Unprotect(sealedSecret);
        }
        catch (CryptographicException)
        {
            return null;
        }
    }
}
