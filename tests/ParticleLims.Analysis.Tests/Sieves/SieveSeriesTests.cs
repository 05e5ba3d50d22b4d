using System.Globalization;
using ParticleLims.Analysis.Quantities;
using ParticleLims.Analysis.Sieves;
using ParticleLims.Analysis.Tests.ReferenceData;

namespace ParticleLims.Analysis.Tests.Sieves;

/// <summary>Against sieve_series.csv, whose first lines tell for each column what was found in print and what is from memory.</summary>
public sealed class SieveSeriesTests
{
    [Fact]
    public void Every_size_agrees_with_the_table()
    {
        var rows = ReferenceFile.Rows("sieve_series.csv");
        SieveSeries.Sizes.Length.ShouldBe(rows.Count);
        for (var i = 0; i < rows.Count; i++)
        {
            var size = SieveSeries.Sizes[i];
            size.Aperture.ShouldBe(Aperture.FromMicrometres(rows[i].Number("w_um")));
            size.Series.HasFlag(SieveSeriesMembership.R20Over3).ShouldBe(rows[i].Has("R20_3"), rows[i]["w_um"]);
            size.Series.HasFlag(SieveSeriesMembership.R20).ShouldBe(rows[i].Has("R20"), rows[i]["w_um"]);
            size.Series.HasFlag(SieveSeriesMembership.R40Over3).ShouldBe(rows[i].Has("R40_3"), rows[i]["w_um"]);
            (size.E11Number ?? string.Empty).ShouldBe(rows[i]["us_no"]);
        }
    }

    [Fact]
    public void A_size_is_found_by_aperture_and_by_number()
    {
        SieveSeries.Find(Aperture.FromMicrometres(63m)).ShouldNotBeNull().E11Number.ShouldBe("230");
        SieveSeries.FindE11("230").ShouldNotBeNull().Aperture.Micrometres.ShouldBe(63m);
        SieveSeries.Find(Aperture.FromMicrometres(64m)).ShouldBeNull();
        SieveSeries.FindE11("231").ShouldBeNull();
    }

    /// <summary>R 20/3 steps by 10^(3/20) = 1.4125 and R 40/3 by 10^(3/40) = 1.1885 (ISO 3 and ISO 565), but for the rounding of the preferred numbers.</summary>
    [Theory]
    [InlineData(SieveSeriesMembership.R20Over3, 0.15)]
    [InlineData(SieveSeriesMembership.R20, 0.05)]
    [InlineData(SieveSeriesMembership.R40Over3, 0.075)]
    public void Neighbours_of_a_series_keep_its_step(SieveSeriesMembership series, double decades)
    {
        var sizes = SieveSeries.Of(series);
        sizes.Length.ShouldBeGreaterThan(20);
        for (var i = 1; i < sizes.Length; i++)
        {
            var step = (double)sizes[i - 1].Aperture.Nanometres / sizes[i].Aperture.Nanometres;
            step.ShouldBe(Math.Pow(10, decades), 0.035 * Math.Pow(10, decades), sizes[i].Aperture.ToString());
        }
    }

    /// <summary>ASTM E11's designations in inches, from memory: but for the rounding of the metric sizes they are the apertures.</summary>
    [Fact]
    public void The_designation_in_inches_is_the_size()
    {
        var inches = SieveSeries.Sizes.Where(size => size.E11Inches is not null).ToList();
        inches.Count.ShouldBe(23);
        foreach (var size in inches)
        {
            var value = size.E11Inches!.Split(' ').Sum(part => part.Split('/') is [var upper, var lower] ? double.Parse(upper, CultureInfo.InvariantCulture) / double.Parse(lower, CultureInfo.InvariantCulture) : double.Parse(part, CultureInfo.InvariantCulture));
            (value * 25_400).ShouldBe((double)size.Aperture.Micrometres, 0.02 * (double)size.Aperture.Micrometres, size.E11Designation);
        }
    }

    [Fact]
    public void A_designation_is_written_as_in_E11()
    {
        SieveSeries.Find(Aperture.FromMicrometres(63m))!.E11Designation.ShouldBe("No. 230");
        SieveSeries.Find(Aperture.FromMicrometres(19_000m))!.E11Designation.ShouldBe("3/4 in.");
        SieveSeries.Find(Aperture.FromMicrometres(40m))!.E11Designation.ShouldBeNull();
    }
}
