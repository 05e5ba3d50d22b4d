using ParticleLims.Laboratory.Record;

namespace ParticleLims.Laboratory.Lots;

/// <summary>What the production or the customer gave with a lot; it stands on the certificate, and a slip in it can be corrected.</summary>
/// <param name="QuantityKilograms">In kilograms.</param>
/// <param name="MadeOn">The day of manufacture.</param>
/// <param name="CustomerReference">The customer's order or item number; null where there is none.</param>
/// <param name="Container">What it is packed in; null where nobody said.</param>
/// <param name="RetestOn">The day from which on it is tested again before use; null for none.</param>
/// <param name="ExpiresOn">The last day of use; null for none.</param>
public sealed record LotParticulars(decimal QuantityKilograms, DateOnly MadeOn, string? CustomerReference = null, string? Container = null, DateOnly? RetestOn = null, DateOnly? ExpiresOn = null)
{
    /// <summary>The most letters of a customer's reference.</summary>
    public const int LongestReference = 120;

    /// <summary>The most letters of a container.</summary>
    public const int LongestContainer = 200;

    /// <summary>Without blanks at the ends, and nothing where there are only blanks.</summary>
    internal LotParticulars Tidied => this with { CustomerReference = CustomerReference.OrNothing(), Container = Container.OrNothing() };

    /// <summary>Refuses, in words, what no lot can be.</summary>
    /// <param name="today">The laboratory's day.</param>
    /// <exception cref="RefusedException">Says which member and why.</exception>
    internal void Require(DateOnly today)
    {
        if (QuantityKilograms is <= 0m or > 10_000_000m)
        {
            throw new RefusedException("lot-quantity", "A lot weighs more than 0 kg and at most 10 000 000 kg.", "quantityKilograms");
        }

        if (MadeOn > today)
        {
            throw new RefusedException("lot-from-the-future", $"The lot cannot have been made later than today ({today:yyyy-MM-dd}).", "madeOn");
        }

        if (CustomerReference?.Length > LongestReference)
        {
            throw new RefusedException("lot-reference", $"The customer's number has at most {LongestReference} letters.", "customerReference");
        }

        if (Container?.Length > LongestContainer)
        {
            throw new RefusedException("lot-container", $"The container has at most {LongestContainer} letters.", "container");
        }

        if (RetestOn is not null && ExpiresOn is not null)
        {
            throw new RefusedException("lot-shelf-life", "A lot has a retest date or an expiry date, not both: a lot that has expired is not tested again for use.", "expiresOn");
        }

        if ((RetestOn ?? ExpiresOn) <= MadeOn)
        {
            throw new RefusedException("lot-shelf-life", $"The retest or expiry date lies after the day of manufacture ({MadeOn:yyyy-MM-dd}).", RetestOn is null ? "expiresOn" : "retestOn");
        }
    }
}
