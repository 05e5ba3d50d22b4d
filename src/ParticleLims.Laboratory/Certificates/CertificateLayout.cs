namespace ParticleLims.Laboratory.Certificates;

/// <summary>How a certificate looks, frozen with it: by which version of which template, and all that this version says of the paper.</summary>
/// <param name="Template">The template's code.</param>
/// <param name="Version">Its version.</param>
/// <param name="Kind"><c>analysis</c>, <c>testReport</c> or <c>inspectionCertificate</c>.</param>
/// <param name="Blocks">The blocks between the masthead and what is said about the document, in their order, for example <c>results</c>.</param>
/// <param name="Omitted">What is not printed although the content has it, for example <c>quantity</c>.</param>
/// <param name="Logo">The picture in the masthead; null for none.</param>
/// <param name="Storage">How it is stored and handled; null for nothing.</param>
/// <param name="Safety">Where the hazards stand; null for nothing.</param>
/// <param name="Accreditation">The accreditation; null where this certificate carries none.</param>
/// <param name="Note">Anything else; null for nothing.</param>
public sealed record CertificateLayout(
    string Template, int Version, string Kind, IReadOnlyList<string> Blocks, IReadOnlyList<string> Omitted, LayoutLogo? Logo, string? Storage, string? Safety, string? Accreditation, string? Note);

/// <summary>A picture in the masthead; its bytes are kept by the laboratory under their hash.</summary>
/// <param name="Sha256">SHA-256 of the bytes, hexadecimal.</param>
/// <param name="Width">In pixels.</param>
/// <param name="Height">In pixels.</param>
/// <param name="Alternative">What it shows, for people who do not see it.</param>
public sealed record LayoutLogo(string Sha256, int Width, int Height, string Alternative);
