using ParticleLims.Analysis.Quantities;
using ParticleLims.Laboratory.Certificates;
using ParticleLims.Laboratory.Specifications;

namespace ParticleLims.Laboratory.Tests.Certificates;

/// <summary>ISO/IEC 17025:2017, 7.8.6.2: the certificate says by which rule, and for which results.</summary>
public sealed class CertificateWordsTests
{
    private static readonly Limit Fine = new() { Position = 1, Characteristic = LimitCharacteristic.Passing, Aperture = Aperture.FromMicrometres(63m), Lower = 97m };
    private static readonly Limit Median = new() { Position = 2, Characteristic = LimitCharacteristic.Percentile, Percent = 50m, Upper = 48m, Rule = LimitRule.Guarded, GuardFactor = 0.83m };

    [Fact]
    public void Simple_acceptance_alone_is_one_sentence_for_all() => CertificateWords.DecisionRule([Fine]).ShouldBe(CertificateWords.SimpleAcceptance);

    [Fact]
    public void Different_rules_are_told_with_the_limits_that_they_hold_for()
    {
        var words = CertificateWords.DecisionRule([Fine, Median]);
        words.ShouldStartWith("Passing 63 µm: simple acceptance (ILAC-G8:09/2019, 4.2.1)");
        words.ShouldContain("D50: guarded acceptance (ILAC-G8:09/2019, 4.2.2)");
        words.ShouldContain("Guard band 0.83 U.");
        words.ShouldEndWith("Verdicts are taken on unrounded values.");
    }

    [Fact]
    public void Four_states_are_explained() =>
        CertificateWords.DecisionRule([new Limit { Position = 1, Characteristic = LimitCharacteristic.Span, Upper = 2m, Rule = LimitRule.FourState }])
            .ShouldStartWith("Span: four states (ILAC-G8:09/2019, 4.2.3)");
}
