using System.Globalization;
using ParticleLims.Laboratory.Certificates;
using ParticleLims.Laboratory.Certificates.Texts;

namespace ParticleLims.CertificatePdf.Sections;

/// <summary>Times as the paper shows them: year first, local, with the offset from UTC.</summary>
internal sealed class LocalTimes
{
    private readonly TimeZoneInfo _zone;

    public LocalTimes(string zone)
    {
        try
        {
            _zone = TimeZoneInfo.FindSystemTimeZoneById(zone);
        }
        catch (Exception unknown) when (unknown is TimeZoneNotFoundException or InvalidTimeZoneException)
        {
            throw new CertificateNotPrintableException($"The time zone '{zone}' is unknown here, so the certificate's times cannot be printed.", unknown);
        }
    }

    public static string Day(DateOnly day) => day.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture);

    public string At(DateTimeOffset instant) => TimeZoneInfo.ConvertTime(instant, _zone).ToString("yyyy-MM-dd HH:mm zzz", CultureInfo.InvariantCulture);

    /// <summary>Both ends; the day and the offset once where they are the same.</summary>
    public string Between(DateTimeOffset from, DateTimeOffset to, CertificateTexts texts)
    {
        var (first, last) = (TimeZoneInfo.ConvertTime(from, _zone), TimeZoneInfo.ConvertTime(to, _zone));
        return first.Date == last.Date && first.Offset == last.Offset
            ? texts.With("span.times", first.ToString("yyyy-MM-dd HH:mm", CultureInfo.InvariantCulture), last.ToString("HH:mm zzz", CultureInfo.InvariantCulture))
            : texts.With("span.times", At(from), At(to));
    }
}
