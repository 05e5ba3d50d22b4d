using ParticleLims.Laboratory.Certificates;
using Shouldly;
using Xunit;

namespace ParticleLims.CertificatePdf.Tests;

public sealed class PrintedTextTests
{
    [Fact]
    public void Everything_the_content_says_is_printed_in_reading_order()
    {
        using var printed = new PrintedPages(Certificates.Typical, "4be1c09d2f7785aa13c6");
        string[] inOrder =
        [
            "Tarnfell Milling", "Fellside Works", "4 Quarry Lane", "laboratory@tarnfell.example, +00 555 0142", "Certificate of analysis", "C-26-00042", "Revision 1", "Issued 2026-11-25 10:41 +00:00",
            "Demonstration laboratory – not a real certificate", "All four results conform to specification SP-GC45-VSC version 3.",
            "Veldt Surface Coatings", "Unit 12, Harbour Road, Veldt 4410", "goods-in@veldt.example", "GC-45 Ground calcite", "GC-26-0311", "2026-11-20", "18 000 kg", "PO 77-3108",
            "S-26-00417, white powder, free of lumps", "sealed pouch, 250 g, intact", "2026-11-20 14:05 +00:00, by M. Aldous, rotary divider from the silo outlet, 8 increments",
            "2026-11-23 08:30 +00:00", "2026-11-24 09:12 to 11:48 +00:00", "M-AJ-02 version 5, Air-jet sieving, carried residue, in force from 2026-01-15", "SP-GC45-VSC version 3, Ground calcite for primer, in force from 2026-03-01",
            "Passing at 20 µm % 15.0 25.0 18.4 ± 0.4 conforms", "Passing at 63 µm % 75.0 – 79.9 ± 0.4 conforms", "D50 µm 35.0 48.0 39.2 ± 0.6 conforms",
            "Retained on 125 µm % – 0.50 0.38 ± 0.20 conforms within the guard band", "ISO 3310-1",
            "20 TS-020-03 9.793 81.58 18.42", "32 TS-032-01 7.437 61.95 38.05", "45 TS-045-02 5.004 41.69 58.31", "63 TS-063-02 2.413 20.10 79.90", "125 TS-125-01 0.046 0.38 99.62",
            "percent of the test portion (mean 12.004 g); recovery is not determined, the fines are drawn off", "R-26-00811: 18.36 % at 20 µm", "R-26-00812: 18.48 % at 20 µm",
            "Each sieve 180 s at a mean differential pressure of 3.2 kPa.", "Dry, no sieving aid.", "Air-jet sieving unit AJ-01; balance B-02 (0.1 mg); rotary divider RD-01", "Guarded acceptance: a result conforms when",
            "Reviewed Inge Marlow Senior technician 2026-11-24 15:20 +00:00", "Released Petra Quill Quality manager 2026-11-25 10:41 +00:00",
            "event 18342, 9f3a51c07be2d48812aa6cfe0b7d93e64c5518f2a0d9b37e611c84fa02bd7795", "4be1c09d2f7785aa13c6", "ParticleLims 0.1.0", "engine 1.0.0", "Europe/Dublin",
            "The results relate only to the items tested.", "Not to be copied except in full", "End of certificate C-26-00042", "C-26-00042, revision 1", "page 1 of 1",
        ];
        var text = printed.Text;
        var from = 0;
        foreach (var expected in inOrder)
        {
            var found = text.IndexOf(expected, from, StringComparison.Ordinal);
            found.ShouldBeGreaterThanOrEqualTo(0, $"'{expected}' is missing or out of order after: …{text[Math.Max(0, from - 60)..from]}");
            from = found + expected.Length;
        }

        PrintedPages.WithoutSpaces(text).ShouldContain("https://lims.tarnfell.example/verify/7KQ2-M4XD-9TRW-B3NH-Z6PC-1F");
    }

    [Fact]
    public void A_typical_certificate_is_one_page_of_A4()
    {
        using var printed = new PrintedPages(Certificates.Typical);
        printed.Pages.Count.ShouldBe(1);

        // ISO 216: A4 is 210 mm by 297 mm.
        printed.Pages[0].Width.ShouldBe(210 / 25.4 * 72, 0.1);
        printed.Pages[0].Height.ShouldBe(297 / 25.4 * 72, 0.1);
    }

    [Fact]
    public void Times_are_local_with_the_offset_of_their_own_day()
    {
        var summer = new DateTimeOffset(2026, 7, 1, 23, 30, 0, TimeSpan.Zero);
        using var printed = new PrintedPages(Certificates.Typical with { Sample = Certificates.Typical.Sample with { TestedFrom = summer, TestedTo = summer.AddHours(2), ReceivedAt = summer } });
        printed.Text.ShouldContain("Received 2026-07-02 00:30 +01:00");
        printed.Text.ShouldContain("Tested 2026-07-02 00:30 to 02:30 +01:00");
        printed.Text.ShouldContain("Issued 2026-11-25 10:41 +00:00");
    }

    [Fact]
    public void A_test_over_several_days_prints_both_days()
    {
        var from = new DateTimeOffset(2026, 10, 24, 22, 0, 0, TimeSpan.Zero);
        using var printed = new PrintedPages(Certificates.Typical with { Sample = Certificates.Typical.Sample with { TestedFrom = from, TestedTo = from.AddDays(1) } });
        printed.Text.ShouldContain("Tested 2026-10-24 23:00 +01:00 to 2026-10-25 22:00 +00:00");
    }

    [Fact]
    public void Only_a_demonstration_says_that_it_is_one()
    {
        using var real = new PrintedPages(Certificates.Typical with { Demonstration = false });
        real.Text.ShouldNotContain("Demonstration");
        using var demonstration = new PrintedPages(Certificates.Long);
        demonstration.Pages.ShouldAllBe(page => PrintedPages.TextOf(page).Contains("Demonstration laboratory – not a real certificate", StringComparison.Ordinal));
    }

    [Fact]
    public void A_draft_is_marked_on_every_page_and_can_be_verified_nowhere()
    {
        using var draft = new PrintedPages(Certificates.Long with { Number = null, VerifyAddress = null, Signatures = [] });
        draft.Pages.Count.ShouldBeGreaterThan(1);
        draft.Pages.ShouldAllBe(page => PrintedPages.TextOf(page).Contains("DRAFT", StringComparison.Ordinal));
        draft.Text.ShouldContain("Draft, not issued");
        draft.Text.ShouldContain("Not signed.");
        draft.Text.ShouldNotContain("genuine");
        draft.Text.ShouldNotContain("C-26-00042");
        using var issued = new PrintedPages(Certificates.Typical);
        issued.Text.ShouldNotContain("DRAFT");
    }

    [Fact]
    public void A_revision_says_what_it_replaces()
    {
        using var printed = new PrintedPages(Certificates.Typical with { Revision = 2, Replaces = "C-26-00042 revision 1: wrong order number of the customer" });
        printed.Text.ShouldContain("Revision 2");
        printed.Text.ShouldContain("Replaces C-26-00042 revision 1: wrong order number of the customer");
    }

    [Fact]
    public void Remarks_and_sieves_of_several_standards_are_printed()
    {
        var sieves = new[] { new SieveLine("63", "TS-063-02", "ISO 3310-1", "2.413", "20.10", "79.90"), new SieveLine("125", "TS-125-01", "ASTM E11", "0.046", "0.38", "99.62") };
        using var printed = new PrintedPages(Certificates.Typical with { Sieves = sieves, Remarks = ["Released by concession CN-26-004.", "Run R-26-00810 was invalidated: sieve left open."] });
        printed.Text.ShouldContain("63 TS-063-02 ISO 3310-1 2.413 20.10 79.90 125 TS-125-01 ASTM E11 0.046 0.38 99.62");
        printed.Text.ShouldContain("Released by concession CN-26-004. Run R-26-00810 was invalidated: sieve left open.");
    }

    [Theory]
    [InlineData("en", "Fraction % Cum. ret. % Passing %", "Receiver 8.673 11.69")]
    [InlineData("de", "Fraktion % Rückst. kum. % Durchg. %", "Boden 8.673 11.69")]
    [InlineData("fr", "Fraction % Refus cum. % Passant %", "Fond 8.673 11.69")]
    [InlineData("es", "Fracción % Ret. acum. % Pasante %", "Fondo 8.673 11.69")]
    public void A_nested_stack_prints_what_lay_on_each_sieve_alone_and_in_the_receiver(string language, string heads, string receiver)
    {
        SieveLine[] sieves =
        [
            new("500 µm", "TS-500-1", "ISO 3310-1", "2.352", "3.17", "96.83") { Fraction = "3.17" }, new("250 µm", "TS-250-1", "ISO 3310-1", "21.584", "32.26", "67.74") { Fraction = "29.09" },
            new("63 µm", "TS-063-2", "ISO 3310-1", "41.578", "88.31", "11.69") { Fraction = "56.05" },
        ];
        using var printed = new PrintedPages(Certificates.Typical with { Language = language, Sieves = sieves, Receiver = new ReceiverLine("8.673", "11.69") });
        printed.Text.ShouldContain(heads);
        printed.Text.ShouldContain("250 TS-250-1 21.584 29.09 32.26 67.74");
        printed.Text.ShouldContain(receiver);
        printed.Pages.Count.ShouldBe(1);
    }

    [Theory]
    [InlineData("en", "Identification CAS 471-34-1", "Manufacturer Stoneriver Quarries, Site 2, Low Road", "Expiry date 2027-11-20", "Container 720 paper sacks of 25 kg")]
    [InlineData("de", "Kennung CAS 471-34-1", "Hersteller Stoneriver Quarries, Site 2, Low Road", "Verfalldatum 2027-11-20", "Gebinde 720 paper sacks of 25 kg")]
    [InlineData("fr", "Identification CAS 471-34-1", "Fabricant Stoneriver Quarries, Site 2, Low Road", "Date de péremption 2027-11-20", "Conditionnement 720 paper sacks of 25 kg")]
    [InlineData("es", "Identificación CAS 471-34-1", "Fabricante Stoneriver Quarries, Site 2, Low Road", "Fecha de caducidad 2027-11-20", "Envase 720 paper sacks of 25 kg")]
    public void Whatever_was_given_with_the_lot_and_the_product_is_printed(string language, params string[] lines)
    {
        var given = Certificates.Typical.Product with { Identification = "CAS 471-34-1", Manufacturer = "Stoneriver Quarries, Site 2, Low Road", Container = "720 paper sacks of 25 kg", ExpiresOn = new DateOnly(2027, 11, 20) };
        using var printed = new PrintedPages(Certificates.Typical with { Language = language, Product = given });
        lines.ShouldAllBe(line => printed.Text.Contains(line));
        using var retested = new PrintedPages(Certificates.Typical with { Product = given with { ExpiresOn = null, RetestOn = new DateOnly(2028, 11, 20) } });
        retested.Text.ShouldContain("Retest date 2028-11-20");
        retested.Text.ShouldNotContain("Expiry date");
        retested.Pages.Count.ShouldBe(1);
    }

    [Fact]
    public void What_is_not_there_leaves_no_trace()
    {
        var content = Certificates.Typical with
        {
            Sieves = [],
            Replicates = [],
            Conditions = [],
            Equipment = [],
            Results = [.. Certificates.Typical.Results.Select(line => line with { Uncertainty = null })],
            Product = Certificates.Typical.Product with { MadeOn = null, Quantity = null, CustomerReference = null },
            Sample = Certificates.Typical.Sample with { TakenAt = null, TakenBy = "", SamplingWay = "" },
            Curve = new([], [], [], null),
        };
        using var printed = new PrintedPages(content);
        foreach (var label in new[] { "Uncertainty", "Serial no.", "Single runs", "Conditions", "Equipment", "Made on", "Identification", "Manufacturer", "Retest date", "Expiry date", "Container", "Fraction %", "Receiver", "Quantity", "Your reference", "Taken", "Remarks" })
        {
            printed.Text.ShouldNotContain(label, Case.Sensitive);
        }
    }

    [Theory]
    [InlineData("Ελληνική Βιομηχανία Κόνεων Α.Ε.")]
    [InlineData("Przędzalnia Źródło i Łąka, Żółć")]
    [InlineData("Değirmencioğlu Işık Şirketi, İğdır")]
    [InlineData("Příliš žluťoučký kůň, Ő Ű ő ű, ß ẞ, ð þ")]
    [InlineData("Мельница Ёлка, Київ")]
    [InlineData("10⁻⁶ m² ≤ x ≥ 3 µm × ½ ± 5 °C – „so“ — x₁₀ ‰ − 4")]
    public void Letters_of_European_customers_are_printed(string name)
    {
        using var printed = new PrintedPages(Certificates.Typical with { Customer = new(name, [name], name) });
        printed.Text.ShouldContain(name);
    }

    [Fact]
    public void Accents_written_apart_are_composed_and_invisible_signs_left_out()
    {
        using var printed = new PrintedPages(Certificates.Typical with { Customer = new("Cafe\u0301 \u202ENietsrevo\u202C Two\nLines\u200B", [], "") });
        printed.Text.ShouldContain("Café Nietsrevo Two Lines");
    }

    [Fact]
    public void A_letter_that_the_font_lacks_is_refused_by_name()
    {
        var refused = Should.Throw<CertificateNotPrintableException>(() => Certificates.Writer.Write(Certificates.Typical with { Customer = new("粉末 Trading", [], "") }));
        refused.Code.ShouldBe("certificate-not-printable", "whoever issues it reads why, as of any refusal");
        refused.Message.ShouldContain("U+7C89");
        refused.Message.ShouldContain("粉末 Trading");
    }

    [Fact]
    public void An_unknown_time_zone_is_refused_by_name() =>
        Should.Throw<CertificateNotPrintableException>(() => Certificates.Writer.Write(Certificates.Typical with { TimeZone = "Mars/Olympus" })).Message.ShouldContain("Mars/Olympus");
}
