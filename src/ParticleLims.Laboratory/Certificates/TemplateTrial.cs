using ParticleLims.Laboratory.Certificates.Texts;
using ParticleLims.Laboratory.Customers;
using ParticleLims.Laboratory.Record;
using ParticleLims.Laboratory.Templates;

namespace ParticleLims.Laboratory.Certificates;

/// <summary>Draws an example by a plan in every language on every sheet, so that no version comes in force by which nothing can be printed.</summary>
internal sealed class TemplateTrial(ICertificateDrawing drawing) : ITemplateTrial
{
    /// <inheritdoc />
    public void Try(PaperPlan plan, byte[]? picture)
    {
        var template = new ChosenTemplate("TRIAL", 1, plan);
        try
        {
            foreach (var language in CertificateTexts.Languages)
            {
                foreach (var paper in CertificateWishes.Papers)
                {
                    drawing.Draw(ExampleContent.By(template, language, paper), logo: picture);
                }
            }
        }
        catch (CertificateNotPrintableException unprintable)
        {
            throw new RefusedException("certificate-template", unprintable.Message, "texts", unprintable);
        }
    }
}
