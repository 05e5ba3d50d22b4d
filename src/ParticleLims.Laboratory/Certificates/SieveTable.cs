using ParticleLims.Analysis.Quantities;
using ParticleLims.Laboratory.Certificates.Texts;
using ParticleLims.Laboratory.Methods;
using ParticleLims.Laboratory.Runs;

namespace ParticleLims.Laboratory.Certificates;

/// <summary>The sieve table of a certificate: the means of the replicates, the coarsest sieve first. In a nested stack a sieve holds one fraction, and the receiver the finest.</summary>
internal static class SieveTable
{
    public static List<SieveLine> SievesOf(SampleResult result, MethodVersion method, Dictionary<string, string> standards, CertificateTexts texts) =>
    [
        .. from replicate in result.Replicates
           from cut in replicate.Evaluation.Result.Cuts
           group (cut, replicate.Run) by cut.Aperture into at
           orderby at.Key descending
           let serials = at.Select(one => one.Run.Sieves.Single(sieve => sieve.Aperture == at.Key).SieveSerial).Distinct().ToList()
           let passing = Mean([.. at.Select(one => one.cut.PassingPercent)])
           select new SieveLine(
               texts.Number(at.Key.ToString()), string.Join(", ", serials), string.Join(", ", serials.Select(serial => standards[serial]).Distinct()),
               Grams([.. at.Select(one => one.cut.Residue!.Value)], texts), Percent(Ratio.Hundred - passing, texts), Percent(passing, texts))
           {
               Fraction = method.Procedure == SievingProcedure.NestedStack ? Percent(Mean([.. at.Select(one => Ratio.Hundred * Ratio.Of(one.cut.Residue!.Value, one.cut.Portion!.Value))]), texts) : null,
           },
    ];

    /// <summary>What lay in the receiver: with the fractions on the sieves it is the whole, of which they are percent.</summary>
    public static ReceiverLine? ReceiverOf(SampleResult result, MethodVersion method, CertificateTexts texts)
    {
        if (method.Procedure != SievingProcedure.NestedStack || result.Replicates.Count == 0)
        {
            return null;
        }

        var runs = result.Replicates.Select(replicate => replicate.Evaluation.Result.Cuts).Select(cuts => (Whole: cuts[0].Portion!.Value, OnSieves: cuts.Aggregate(Mass.Zero, (sum, cut) => sum + cut.Residue!.Value))).ToList();
        return new ReceiverLine(Grams(runs.ConvertAll(run => run.Whole - run.OnSieves), texts), Percent(Mean(runs.ConvertAll(run => Ratio.Hundred - (Ratio.Hundred * Ratio.Of(run.OnSieves, run.Whole)))), texts));
    }

    private static Ratio Mean(List<Ratio> values) => values.Aggregate(Ratio.Zero, (sum, one) => sum + one) / Ratio.Of(values.Count, 1);

    private static string Grams(List<Mass> masses, CertificateTexts texts) => texts.Number(Mean(masses.ConvertAll(mass => Ratio.Of(mass.Micrograms, 1_000_000))).ToString(3, Rounding.HalfEven));

    private static string Percent(Ratio percent, CertificateTexts texts) => texts.Number(percent.ToString(2, Rounding.HalfEven));
}
