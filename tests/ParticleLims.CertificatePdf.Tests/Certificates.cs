using ParticleLims.CertificatePdf.Sealing;
using ParticleLims.Laboratory.Certificates;

namespace ParticleLims.CertificatePdf.Tests;

/// <summary>Certificates of the invented laboratory to draw.</summary>
internal static class Certificates
{
    /// <summary>The key of this test run, in memory alone; made at once, as it carries the name of whoever seals first.</summary>
    public static SealKeys Keys { get; } = Made();

    public static CertificatePdfWriter Writer { get; } = new(Keys);

    public static CertificateContent Typical { get; } = new()
    {
        Number = "C-26-00042",
        Revision = 1,
        Demonstration = true,
        Issuer = new("Tarnfell Milling", ["Fellside Works", "4 Quarry Lane", "Tarnfell TF2 9QX"], "laboratory@tarnfell.example, +00 555 0142"),
        Customer = new("Veldt Surface Coatings", ["Unit 12, Harbour Road", "Veldt 4410"], "goods-in@veldt.example"),
        Product = new("GC-45", "Ground calcite", "GC-26-0311", new DateOnly(2026, 11, 20), "18 000 kg", "PO 77-3108"),
        Sample = new(
            "S-26-00417", "white powder, free of lumps", "sealed pouch, 250 g, intact", At(20, 14, 5), "M. Aldous", "rotary divider from the silo outlet, 8 increments",
            At(23, 8, 30), At(24, 9, 12), At(24, 11, 48)),
        Specification = new("SP-GC45-VSC", "Ground calcite for primer", 3, new DateOnly(2026, 3, 1)),
        Method = new("M-AJ-02", "Air-jet sieving, carried residue", 5, new DateOnly(2026, 1, 15)),
        Results =
        [
            new("Passing at 20 µm", "%", "15.0", "25.0", "18.4", "± 0.4", "conforms"),
            new("Passing at 63 µm", "%", "75.0", "", "79.9", "± 0.4", "conforms"),
            new("D50", "µm", "35.0", "48.0", "39.2", "± 0.6", "conforms"),
            new("Retained on 125 µm", "%", "", "0.50", "0.38", "± 0.20", "conforms within the guard band"),
        ],
        Sieves =
        [
            new("20 µm", "TS-020-03", "ISO 3310-1", "9.793", "81.58", "18.42"),
            new("32 µm", "TS-032-01", "ISO 3310-1", "7.437", "61.95", "38.05"),
            new("45 µm", "TS-045-02", "ISO 3310-1", "5.004", "41.69", "58.31"),
            new("63 µm", "TS-063-02", "ISO 3310-1", "2.413", "20.10", "79.90"),
            new("125 µm", "TS-125-01", "ISO 3310-1", "0.046", "0.38", "99.62"),
        ],
        Basis = "percent of the test portion (mean 12.004 g); recovery is not determined, the fines are drawn off",
        Replicates =
        [
            new("R-26-00811", "18.36 % at 20 µm, 58.22 % at 45 µm, 79.84 % at 63 µm, D50 39.3 µm"),
            new("R-26-00812", "18.48 % at 20 µm, 58.40 % at 45 µm, 79.96 % at 63 µm, D50 39.1 µm"),
        ],
        Conditions = ["Each sieve 180 s at a mean differential pressure of 3.2 kPa.", "End point: change of the residue below 0.2 % of the portion in 60 s, met on every sieve.", "Dry, no sieving aid."],
        Equipment = ["Air-jet sieving unit AJ-01", "balance B-02 (0.1 mg)", "rotary divider RD-01"],
        Curve = new(
            [new(20, 18.42, 0.21), new(32, 38.05, 0.24), new(45, 58.31, 0.25), new(63, 79.9, 0.22), new(125, 99.62, 0.1)],
            [new("15 to 25 %", 20, null, 15, 25), new("≥ 75 %", 63, null, 75, null), new("D50 35 to 48 µm", null, 50, 35, 48), new("≥ 99.5 %", 125, null, 99.5, null)],
            [new("D50 39.2 µm", 50, 39.2)],
            new(48.6, 1.55)),
        Measurements = new(
            "carriedResidue", "logLinear", [MeasuredAs("R-26-00811", 9_797_000, 5_012_000, 2_419_000), MeasuredAs("R-26-00812", 9_789_000, 4_996_000, 2_407_000)],
            [new("percentile", null, 50m, "µm", 35m, 48m, "guarded", 1m, 39.2, "equal", 0.6, "conforms")]),
        Conformity = "All four results conform to specification SP-GC45-VSC version 3.",
        DecisionRule = "Guarded acceptance: a result conforms when it lies inside the limits by at least its expanded uncertainty U (k = 2); nearer to a limit it conforms within the guard band. ISO/IEC 17025, 7.8.6.",
        Remarks = [],
        Signatures =
        [
            new("reviewed", "Inge Marlow", "Senior technician", At(24, 15, 20)),
            new("released", "Petra Quill", "Quality manager", At(25, 10, 41)),
        ],
        IssuedAt = At(25, 10, 41),
        TimeZone = "Europe/Dublin",
        VerifyAddress = "https://lims.tarnfell.example/verify/7KQ2-M4XD-9TRW-B3NH-Z6PC-1F",
        RecordHead = new(18342, "9f3a51c07be2d48812aa6cfe0b7d93e64c5518f2a0d9b37e611c84fa02bd7795"),
        SoftwareVersion = "ParticleLims 0.1.0",
        EngineVersion = "1.0.0",
    };

    /// <summary>Three samples of two lots; one of them does not conform.</summary>
    public static CertificateContent Several { get; } = Typical with
    {
        FormatVersion = CertificateContent.SeveralSamples,
        Overall = "The results listed of 3 samples conform to their specifications except: lot GC-26-0312, sample S-26-00419: D50.",
        Further =
        [
            Typical.Items[0] with { Sample = Typical.Sample with { Code = "S-26-00418" } },
            Typical.Items[0] with
            {
                Product = Typical.Product with { LotNumber = "GC-26-0312", Quantity = "6 000 kg" }, Sample = Typical.Sample with { Code = "S-26-00419" },
                Results = [.. Typical.Results.Take(2), Typical.Results[2] with { Result = "48.6", Verdict = "does not conform" }, Typical.Results[3]],
                Conformity = "The results listed conform to specification SP-GC45-VSC version 3 except: D50. The lot was released by concession.",
                Remarks = ["Concession: the customer accepts D50 up to 49 µm for this delivery."],
            },
        ],
    };

    public static CertificateContent Draft { get; } = Typical with { Number = null, VerifyAddress = null, Signatures = [] };

    /// <summary>Forty limits and twenty sieves, which need more than one page.</summary>
    public static CertificateContent Long { get; } = Typical with
    {
        Results = [.. Enumerable.Range(1, 40).Select(i => new ResultLine($"Characteristic no. {i:00}", "%", $"{i}.5", $"{i + 20}.5", $"{i + 10}.25", "± 0.40", i % 9 == 0 ? "does not conform" : "conforms"))],
        Sieves = [.. Enumerable.Range(1, 20).Select(i => new SieveLine($"{i * 20}", $"TS-{i * 20:000}-01", "ISO 3310-1", $"{20 - i}.{i:000}", $"{100 - (i * 4.9):0.00}", $"{i * 4.9:0.00}"))],
    };

    private static SealKeys Made()
    {
        var keys = new SealKeys(null, TimeProvider.System);
        keys.Current("Tarnfell Milling");
        return keys;
    }

    private static MeasuredRun MeasuredAs(string run, params long[] residues) => new(
        run, [.. residues.Zip([20_000L, 45_000L, 63_000L], (residue, aperture) => new MeasuredCutNumbers(aperture, aperture, 12_004_000, residue, 100 - (residue / 120_040d)))]);

    private static DateTimeOffset At(int day, int hour, int minute) => new(2026, 11, day, hour, minute, 0, TimeSpan.Zero);
}
