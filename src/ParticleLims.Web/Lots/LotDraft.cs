using ParticleLims.Laboratory.Lots;

namespace ParticleLims.Web.Lots;

/// <summary>What was given with a lot, while it is typed.</summary>
public sealed class LotDraft
{
    /// <summary>In kilograms; null while it is empty.</summary>
    public decimal? Kilograms { get; set; }
    public DateOnly? MadeOn { get; set; }
    public DateOnly? RetestOn { get; set; }
    public DateOnly? ExpiresOn { get; set; }
    public string Container { get; set; } = string.Empty;
    public string CustomerReference { get; set; } = string.Empty;

    /// <summary>What stands there already.</summary>
    public static LotDraft Of(LotParticulars known)
    {
        ArgumentNullException.ThrowIfNull(known);
        return new LotDraft
        {
            Kilograms = known.QuantityKilograms, MadeOn = known.MadeOn, RetestOn = known.RetestOn, ExpiresOn = known.ExpiresOn, Container = known.Container ?? string.Empty, CustomerReference = known.CustomerReference ?? string.Empty,
        };
    }

    /// <summary>What was typed, once the form found everything that is needed.</summary>
    public LotParticulars Read() => new(Kilograms!.Value, MadeOn!.Value, CustomerReference, Container, RetestOn, ExpiresOn);
}
