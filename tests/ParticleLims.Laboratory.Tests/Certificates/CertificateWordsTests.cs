using ParticleLims.Analysis.Quantities;
using ParticleLims.Laboratory.Certificates;
using ParticleLims.Laboratory.Certificates.Texts;
using ParticleLims.Laboratory.Specifications;

namespace ParticleLims.Laboratory.Tests.Certificates;

/// <summary>ISO/IEC 17025:2017, 7.8.6.2: the certificate says by which rule, and for which results.</summary>
public sealed class CertificateWordsTests
{
    private static readonly CertificateWords Words = new(CertificateTexts.In("en"));
    private static readonly Limit Fine = new() { Position = 1, Characteristic = LimitCharacteristic.Passing, Aperture = Aperture.FromMicrometres(63m), Lower = 97m };
    private static readonly Limit Median = new() { Position = 2, Characteristic = LimitCharacteristic.Percentile, Percent = 50m, Upper = 48m, Rule = LimitRule.Guarded, GuardFactor = 0.83m };

    [Fact]
    public void Simple_acceptance_alone_is_one_sentence_for_all() => Words.DecisionRule([Fine]).ShouldBe(CertificateTexts.In("en")["rule.simpleAll"]);

    [Fact]
    public void Different_rules_are_told_with_the_limits_that_they_hold_for()
    {
        var words = Words.DecisionRule([Fine, Median]);
        words.ShouldStartWith("Passing 63 µm: simple acceptance (ILAC-G8:09/2019, 4.2.1)");
        words.ShouldContain("D50: guarded acceptance (ILAC-G8:09/2019, 4.2.2)");
        words.ShouldContain("Guard band 0.83 U.");
        words.ShouldEndWith("Verdicts are taken on unrounded values.");
    }

    [Fact]
    public void Four_states_are_explained() =>
        Words.DecisionRule([new Limit { Position = 1, Characteristic = LimitCharacteristic.Span, Upper = 2m, Rule = LimitRule.FourState }])
            .ShouldStartWith("Span: four states (ILAC-G8:09/2019, 4.2.3)");

    [Theory]
    [InlineData("de", "Durchgang 63 µm: einfache Annahme", "Schutzabstand 0,83 U.")]
    [InlineData("fr", "Passant 63 µm: acceptation simple", "Bande de garde 0,83 U.")]
    [InlineData("es", "Pasante 63 µm: aceptación simple", "Banda de guarda 0,83 U.")]
    public void Another_language_has_its_own_words_and_decimal_sign(string language, string first, string band)
    {
        var words = new CertificateWords(CertificateTexts.In(language)).DecisionRule([Fine, Median]);
        words.ShouldStartWith(first);
        words.ShouldContain(band);
    }
}
