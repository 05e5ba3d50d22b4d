namespace ParticleLims.Laboratory.Outgoing;

/// <summary>News of the laboratory's work that can be posted to the webhook; the administrator chooses which.</summary>
/// <param name="Kind">For programs, in the post.</param>
/// <param name="Words">For people: when it is posted.</param>
public sealed record PostedNews(string Kind, string Words)
{
    /// <summary>All of them.</summary>
    public static IReadOnlyList<PostedNews> All { get; } =
    [
        new("lot-state", "The state of a lot changes"),
        new("certificate-issued", "A certificate is issued"),
        new("certificate-revised", "A certificate is issued in the place of another one"),
        new("certificate-suspended", "A certificate is suspended"),
        new("certificate-reinstated", "A suspended certificate counts again"),
        new("certificate-withdrawn", "A certificate is withdrawn"),
        new("investigation-opened", "An investigation is opened"),
        new("equipment-failed", "A case of failed equipment is opened"),
    ];
}
