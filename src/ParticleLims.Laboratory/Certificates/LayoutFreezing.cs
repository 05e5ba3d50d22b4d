using ParticleLims.Laboratory.Templates;

namespace ParticleLims.Laboratory.Certificates;

/// <summary>Freezes what a template says of one certificate: in its language, and with the accreditation only where that covers it.</summary>
internal static class LayoutFreezing
{
    /// <param name="template">The template's version.</param>
    /// <param name="language">The certificate's language.</param>
    /// <param name="methods">The codes of its methods.</param>
    /// <param name="day">The laboratory's day on which it is issued.</param>
    public static CertificateLayout Of(ChosenTemplate template, string language, IEnumerable<string> methods, DateOnly day) =>
        Of(template, language, template.Plan.Scope?.Covers(methods, day) == true);

    public static CertificateLayout Of(ChosenTemplate template, string language, bool accredited)
    {
        var plan = template.Plan;
        return new CertificateLayout(
            template.Code, template.Version, MeasurementsFreezing.Name(plan.Kind), [.. plan.Blocks.Select(MeasurementsFreezing.Name)], [.. plan.Omitted.Select(MeasurementsFreezing.Name)],
            plan.Logo is { } logo ? new LayoutLogo(logo.Sha256, logo.Width, logo.Height, logo.Alternative) : null,
            OrNull(plan.Text(language, one => one.Storage)), OrNull(plan.Text(language, one => one.Safety)), accredited ? OrNull(plan.Text(language, one => one.Accreditation)) : null, OrNull(plan.Text(language, one => one.Note)));
    }

    private static string? OrNull(string text) => text.Length == 0 ? null : text;
}
