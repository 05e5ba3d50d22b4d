using ParticleLims.Analysis.Quantities;
using ParticleLims.Analysis.Sieves;
using ParticleLims.Analysis.Tests.ReferenceData;

namespace ParticleLims.Analysis.Tests.Sieves;

/// <summary>Against sieve_series.csv and iso3310_2_perforated.csv, whose first lines tell what was found in print and what is from memory.</summary>
public sealed class ToleranceTests
{
    [Fact]
    public void The_formulas_give_the_tabulated_deviations()
    {
        foreach (var row in ReferenceFile.Rows("sieve_series.csv"))
        {
            var nominal = Aperture.FromMicrometres(row.Number("w_um"));
            Near(WireClothTolerances.MeanDeviation(nominal), row, "Y_formula");
            Near(WireClothTolerances.SingleDeviation(nominal), row, "X_formula");
            Near(WireClothTolerances.IntermediateDeviation(nominal), row, "Z_formula");
        }
    }

    /// <summary>A certificate's example quoted publicly: 180 µm, X = 47 µm.</summary>
    [Fact]
    public void The_one_published_point_is_met() => Math.Round(WireClothTolerances.SingleDeviation(Aperture.FromMicrometres(180m))).ShouldBe(47);

    /// <summary>ASTM E11-01, table 1, as publicly quoted: its mean deviations, rounded by the standard, are those of the formula within 7 %.</summary>
    [Fact]
    public void The_mean_deviations_of_E11_01_are_those_of_the_formula()
    {
        var rows = ReferenceFile.Rows("sieve_series.csv").Where(row => row.Has("Y_E11_01")).ToList();
        rows.Count.ShouldBeGreaterThan(25);
        foreach (var row in rows)
        {
            WireClothTolerances.MeanDeviation(Aperture.FromMicrometres(row.Number("w_um"))).ShouldBe((double)row.Number("Y_E11_01"), 0.07 * (double)row.Number("Y_E11_01"), row["w_um"]);
        }
    }

    [Fact]
    public void The_table_of_the_formulas_has_every_size_to_a_tenth()
    {
        WireClothTolerances.Table.Rows.Length.ShouldBe(SieveSeries.Sizes.Length);
        var row = WireClothTolerances.Table.Find(Aperture.FromMicrometres(63m)).ShouldNotBeNull();
        (row.MeanMicrometres, row.SingleMicrometres, row.DeviationMicrometres).ShouldBe((3.7m, 26.2m, null));
        WireClothTolerances.Table.Find(Aperture.FromMicrometres(64m)).ShouldBeNull();
    }

    [Fact]
    public void Perforated_plate_has_the_published_table()
    {
        var rows = ReferenceFile.Rows("iso3310_2_perforated.csv");
        PerforatedPlateTolerances.Table.Rows.Length.ShouldBe(rows.Count);
        foreach (var row in rows)
        {
            var found = PerforatedPlateTolerances.Table.Find(Aperture.FromMicrometres(1000m * row.Number("w"))).ShouldNotBeNull();
            found.SingleMicrometres.ShouldBe(1000m * row.Number("tol_individual_hole"));
            found.MeanMicrometres.ShouldBeNull();
        }
    }

    /// <summary>A laboratory's own table: ASTM E11-01 has Y, the largest aperture, and one that not more than 5 % may pass.</summary>
    [Fact]
    public void A_laboratory_makes_the_table_of_its_own_edition()
    {
        var table = ToleranceTable.From("ASTM E11-01", "public quotation of table 1", ReferenceFile.Rows("sieve_series.csv").Where(row => row.Has("wmax_E11_01")).Select(row => new ToleranceRow
        {
            Nominal = Aperture.FromMicrometres(row.Number("w_um")),
            MeanMicrometres = row.Number("Y_E11_01"),
            SingleMicrometres = row.Number("wmax_E11_01") - row.Number("w_um"),
            IntermediateMicrometres = row.Number("w5_E11_01") - row.Number("w_um"),
        }), intermediatePercent: 5m);
        table.Find(Aperture.FromMicrometres(4750m))!.MeanMicrometres.ShouldBe(150m);
        table.IntermediatePercent.ShouldBe(5m);
        table.Rows.ShouldBe(table.Rows.OrderByDescending(row => row.Nominal));
    }

    /// <summary>Every deviation of the mean that sieve_series.csv quotes from an edition in print, held from both sides.</summary>
    [Theory]
    [InlineData("ASTM E11-01", "Y_E11_01")]
    [InlineData("GOST R 51761-2005", "Y_GOST_R_51761")]
    public void A_sieve_is_judged_by_the_deviation_of_its_own_edition_at_every_size(string edition, string column)
    {
        var rows = ReferenceFile.Rows("sieve_series.csv").Where(row => row.Has(column)).ToList();
        rows.Count.ShouldBeGreaterThan(10);
        var table = ToleranceTable.From(edition, "as quoted publicly", rows.Select(row => new ToleranceRow { Nominal = Aperture.FromMicrometres(row.Number("w_um")), MeanMicrometres = row.Number(column) }));
        foreach (var row in rows)
        {
            foreach (var (share, conforms) in ((double, bool)[])[(0.999, true), (-0.999, true), (1.001, false), (-1.001, false)])
            {
                var mean = (double)row.Number("w_um") + (share * (double)row.Number(column));
                var verdict = ApertureJudgement.Of(new ApertureInspection { Nominal = Aperture.FromMicrometres(row.Number("w_um")), MeanMicrometres = mean, LargestMicrometres = mean, Count = 100 }, table).ShouldNotBeNull();
                (verdict.Edition, verdict.Conforms).ShouldBe((edition, conforms), $"{row["w_um"]} {share}");
            }
        }
    }

    [Fact]
    public void A_table_without_edition_or_with_two_rows_for_one_size_is_refused()
    {
        var row = new ToleranceRow { Nominal = Aperture.FromMicrometres(63m), MeanMicrometres = 3.7m };
        Should.Throw<ArgumentException>(() => ToleranceTable.From(" ", "x", [row]));
        Should.Throw<ArgumentException>(() => ToleranceTable.From("x", "x", []));
        Should.Throw<ArgumentException>(() => ToleranceTable.From("x", "x", [row, row]));
        Should.Throw<ArgumentException>(() => ToleranceTable.From("x", "x", [row with { SingleMicrometres = 0m }]));
        Should.Throw<ArgumentOutOfRangeException>(() => WireClothTolerances.MeanDeviation(Aperture.FromMicrometres(10m)));
    }

    private static void Near(double value, ReferenceFile.Row row, string column) =>
        value.ShouldBe((double)row.Number(column), 0.51 * Math.Pow(10, -Printed.Decimals(row[column])), $"{row["w_um"]} {column}");
}
