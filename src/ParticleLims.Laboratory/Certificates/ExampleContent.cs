using ParticleLims.Laboratory.Certificates.Texts;
using ParticleLims.Laboratory.Templates;

namespace ParticleLims.Laboratory.Certificates;

/// <summary>An invented certificate, to try and to show a template where none was issued yet. It is marked as a draft of the demonstration.</summary>
internal static class ExampleContent
{
    private static readonly DateTimeOffset Day = new(2026, 11, 24, 9, 12, 0, TimeSpan.Zero);

    /// <summary>By a template, in a language, on a sheet. The accreditation is shown where the template has one.</summary>
    public static CertificateContent By(ChosenTemplate template, string language, string paper)
    {
        var texts = CertificateTexts.In(language);
        return new CertificateContent
        {
            Language = language, Paper = paper, RosinRammlerNet = template.Plan.Net, Number = null, Revision = 1, Demonstration = true,
            Issuer = new("Tarnfell Milling", ["Fellside Works", "4 Quarry Lane", "Tarnfell TF2 9QX"], "laboratory@tarnfell.example, +00 555 0142"),
            Customer = new("Veldt Surface Coatings", ["Unit 12, Harbour Road", "Veldt 4410"], "goods-in@veldt.example"),
            Product = new("GC-45", "Ground calcite", "GC-26-0311", new DateOnly(2026, 11, 20), "18000 kg", "PO 77-3108"),
            Sample = new("S-26-00417", "White powder", "250 g", Day.AddDays(-4), "M. Aldous", texts["division.rotaryDivider"], Day.AddDays(-1), Day, Day.AddHours(3)),
            Specification = new("SP-GC-45", "GC-45", 3, new DateOnly(2026, 3, 1)), Method = new("M-GC-45", "GC-45", 5, new DateOnly(2026, 1, 15)),
            Results = Results(texts, template.Plan.Uncertainty), Sieves = Sieves(texts), Basis = texts["basis.carriedResidue"] + texts.With("basis.mean", texts.Number("12.004")),
            Replicates = [new("R-26-00811", Values(texts, "18.36", "79.84")), new("R-26-00812", Values(texts, "18.48", "79.96"))],
            Conditions = [texts.With("condition.airJet", 180), texts.With("condition.pressure", texts.Number("3.1"), texts.Number("3.3")), texts.With("condition.endPoint", 60), texts["condition.noFlowAid"]],
            Equipment = [texts.With("equipment.sievingUnit", "AJ-01", "SU-118"), texts.With("equipment.balance", "B-02", "BL-2207", texts.Number("0.0001"))],
            Curve = new([new(20, 18.42, null), new(32, 38.05, null), new(45, 58.31, null), new(63, 79.9, null), new(125, 99.62, null)], [new("≥ 75 %", 63, null, 75, null)], [new("D50", 50, 39.2)], new(48.6, 1.55)),
            Conformity = texts.With("conformity.all", "SP-GC-45", 3), DecisionRule = texts.With("rule.guarded", "1") + " " + texts["rule.about"], Remarks = [],
            Signatures = [new(texts["meaning.reviewed"], "Inge Marlow", texts["function.Reviewer"], Day.AddHours(6)), new(texts["meaning.released"], "Petra Quill", texts["function.Quality manager"], Day.AddDays(1))],
            IssuedAt = Day.AddDays(1), TimeZone = "UTC", VerifyAddress = null, RecordHead = new(18342, new string('0', 64)), SoftwareVersion = "ParticleLims", EngineVersion = Analysis.Engine.Version,
            Layout = LayoutFreezing.Of(template, language, accredited: true),
        };
    }

    private static IReadOnlyList<ResultLine> Results(CertificateTexts texts, bool uncertainty) =>
    [
        new(texts.With("characteristic.passing", "20 µm"), "%", texts.Number("15.0"), texts.Number("25.0"), texts.Number("18.4"), uncertainty ? "± " + texts.Number("0.4") : null, texts["verdict.conforms"]),
        new(texts.With("characteristic.passing", "63 µm"), "%", texts.Number("75.0"), "–", texts.Number("79.9"), "± " + texts.Number("0.4"), texts["verdict.conforms"]),
        new(texts.With("characteristic.percentile", "50"), "µm", texts.Number("35.0"), texts.Number("48.0"), texts.Number("39.2"), "± " + texts.Number("0.6"), texts["verdict.conforms"]),
    ];

    private static IReadOnlyList<SieveLine> Sieves(CertificateTexts texts) =>
    [
        .. from line in new[] { ("125", "TS-125-01", "0.046", "0.38", "99.62"), ("63", "TS-063-02", "2.413", "20.10", "79.90"), ("45", "TS-045-02", "5.004", "41.69", "58.31"), ("32", "TS-032-01", "7.437", "61.95", "38.05"), ("20", "TS-020-03", "9.793", "81.58", "18.42") }
           select new SieveLine(line.Item1 + " µm", line.Item2, "ISO 3310-1", texts.Number(line.Item3), texts.Number(line.Item4), texts.Number(line.Item5)),
    ];

    private static string Values(CertificateTexts texts, string fine, string coarse) =>
        $"{texts.With("characteristic.passing", "20 µm")} {texts.Number(fine)} %; {texts.With("characteristic.passing", "63 µm")} {texts.Number(coarse)} %";
}
