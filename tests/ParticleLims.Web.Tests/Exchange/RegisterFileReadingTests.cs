using System.Text;
using ParticleLims.Analysis.Quantities;
using ParticleLims.Laboratory.Balances;
using ParticleLims.Laboratory.Equipment;
using ParticleLims.Laboratory.Exchange;
using ParticleLims.Laboratory.Record;
using ParticleLims.Web.Exchange;
using Shouldly;
using Xunit;

namespace ParticleLims.Web.Tests.Exchange;

/// <summary>A register in a file: forgiving where nothing can be mistaken, else a sentence with row, column and value.</summary>
public sealed class RegisterFileReadingTests
{
    private const string SieveHead = "Serial number,Nominal aperture (µm),Frame diameter (mm),Standard of the cloth,Place";
    private const string Sieve = "TS-1,63,200,ISO 3310-1:2016,Rack A";

    [Theory]
    [InlineData("Serial number,Nominal aperture (µm),Frame diameter (mm),Standard of the cloth,Place\r\nTS-1,63,200,ISO 3310-1:2016,Rack A\r\n")]
    [InlineData("\uFEFFserial  NUMBER;Place;Nominal aperture (um);Frame diameter (mm);Standard of the cloth\n\nTS-1;Rack A;63,0;200;ISO 3310-1:2016\n;;;;\n")]
    [InlineData("\"Serial number\"\t\"Nominal aperture (μm)\"\tFrame diameter (mm)\tStandard of the cloth\tPlace\n\"TS-1\"\t6.3e1\t200.0\tISO 3310-1:2016\tRack A")]
    public void The_same_sieve_is_read_from_each_way_of_writing_it(string text)
    {
        var row = Read(text).File.Rows.ShouldHaveSingleItem().ShouldBeOfType<SieveRow>();
        row.Card.ShouldBe(new("TS-1", Aperture.FromMicrometres(63m), 200, "ISO 3310-1:2016", "Rack A"));
        (row.Plan, row.Measured, row.Before).ShouldBe((null, null, new EarlierLife()));
    }

    [Theory]
    [InlineData("abc", "“abc”: A number stands here")]
    [InlineData("63 µm", "its unit stands in the name of the column")]
    [InlineData("\"1,250\"", "“1,250”: Is that 1250 or 1.250?")]
    [InlineData("\"1.250,5\"", "no marks between its thousands")]
    [InlineData("0", "An aperture lies above 0 µm")]
    [InlineData("-63", "An aperture lies above 0 µm")]
    [InlineData("63.0001", "at most three decimals")]
    [InlineData("1e99", "too large")]
    [InlineData("", "It is empty; every row needs it.")]
    public void A_number_that_cannot_be_meant_is_named_with_its_column_and_value(string cell, string words)
    {
        var row = Read($"{SieveHead}\n{Sieve}\nTS-2,{cell},200,ISO 3310-1:2016,Rack A").File.Rows[1].ShouldBeOfType<UnreadableRow>();
        (row.Place.Words, row.Serial).ShouldBe(("row 3", "TS-2"));
        var finding = row.Findings.ShouldHaveSingleItem();
        RegisterSheet.Of(row.Kind).TitleOf(finding.Member).ShouldBe("Nominal aperture (µm)");
        finding.Words.ShouldContain(words);
    }

    [Fact]
    public void All_that_is_wrong_with_a_row_is_said_at_once()
    {
        var row = Read($"{SieveHead},State,Next due on\n{new string('7', 61)},x,20.5,,Rack A,lost,02.03.2026").File.Rows[0].ShouldBeOfType<UnreadableRow>();
        row.Findings.Select(finding => finding.Member).ShouldBe(["serial", "aperture", "frameMillimetres", "standard", "state", "nextDueOn"]);
        row.Findings.ShouldContain(finding => finding.Words.Contains("has 61 characters; at most 60", StringComparison.Ordinal));
        row.Findings.ShouldContain(finding => finding.Words.Contains("none of: awaiting commissioning, in service, out of service, scrapped", StringComparison.Ordinal));
        row.Findings.ShouldContain(finding => finding.Words.Contains("“02.03.2026” is no day. Write it as 2026-03-02", StringComparison.Ordinal));
    }

    [Theory]
    [InlineData("Serial number,Nominal aperture,Frame diameter (mm),Standard of the cloth,Place", "The column “Nominal aperture” is not known; “Nominal aperture (µm)” is.")]
    [InlineData("Serial number,Nominal aperture (mm),Frame diameter (mm),Standard of the cloth,Place", "The column “Nominal aperture (mm)” is not known; “Nominal aperture (µm)” is.")]
    [InlineData("Serial number,Nominal aperture (µm),Frame diameter (mm),Place", "The column “Standard of the cloth” is missing")]
    [InlineData("Serial number,Nominal aperture (µm),Frame diameter (mm),Standard of the cloth,Place,Colour", "The column “Colour” is not known for test sieves.")]
    [InlineData("Serial number,Nominal aperture (µm),Nominal aperture (um),Frame diameter (mm),Standard of the cloth,Place", "The column “Nominal aperture (µm)” stands twice.")]
    [InlineData("Number,Colour", "Take a template")]
    public void A_column_that_is_unknown_missing_or_doubled_is_named(string head, string words) => Should.Throw<RefusedException>(() => Read(head + "\n1,2,3,4,5,6")).Message.ShouldContain(words);

    [Fact]
    public void A_cell_without_a_column_is_not_lost_silently() =>
        Should.Throw<RefusedException>(() => Read($"{SieveHead}\n{Sieve},another")).Message.ShouldContain("Row 2 has something in a column without a name");

    [Fact]
    public void Decimal_points_and_decimal_commas_in_one_table_are_refused_because_then_neither_is_certain() =>
        Should.Throw<RefusedException>(() => Read($"{SieveHead.Replace(',', ';')}\nTS-1;63,5;200;ISO 3310-1:2016;A\nTS-2;1.250;200;ISO 3310-1:2016;A")).Message.ShouldBe("Row 3 has a number with a decimal point and row 2 one with a decimal comma. Write all of them with a point.");

    [Fact]
    public void A_measurement_and_a_certificate_are_whole_or_not_there()
    {
        var sieve = Read($"{SieveHead},Document number,Mean aperture (µm)\n{Sieve},I-1,63.2").File.Rows[0].ShouldBeOfType<UnreadableRow>();
        sieve.Findings.Select(finding => finding.Member).ShouldBe(["measuredOn", "largest", "count"]);
        var weight = Read("Serial number,Nominal mass (g),Class,Place,Certificate number,Calibrated on\nW-1,100,F1,Case,K-1,2026-01-05").File.Rows[0].ShouldBeOfType<UnreadableRow>();
        weight.Findings.Select(finding => finding.Member).ShouldBe(["conventionalMass", "uncertainty", "comparedWith", "dueOn"]);
    }

    [Fact]
    public void A_balance_takes_the_usual_line_where_nothing_else_is_written()
    {
        var row = Read("Serial number,Name,Place,Readability (g),Capacity (g),Repeatability (s) (g),Check weight (g),Allowed off by (g),Way in,Serial port,Reading format,State,State reason\nB-1,Bench 9,Bench 9,0.0001,220,0.0002,100,0.0005,Server’s port,/dev/ttyUSB0,Plain line,out of service,'=dropped").File.Rows[0].ShouldBeOfType<BalanceRow>();
        row.Card.Way.ShouldBe(new BalanceWay(WayIn.ServerPort, Device: "/dev/ttyUSB0"));
        row.Card.Readability.ShouldBe(Mass.FromMicrograms(100));
        row.Before.ShouldBe(new EarlierLife(EquipmentState.OutOfService, "=dropped"));
    }

    [Fact]
    public void A_workbook_brings_a_sheet_for_each_kind_and_passes_over_what_is_none()
    {
        var weights = TableSheet.Of("Check weights", [[.. CheckWeightColumns.All.Take(4).Select(column => TableCell.Of(column.Title))], [TableCell.Of(1001m), TableCell.Of(0.5m), TableCell.Of("M1"), TableCell.Of("Case")]]);
        var read = RegisterFileReading.Read("all.xlsx", TableWriting.Workbook([TableSheet.Of("Notes", [[TableCell.Of("remember")]]), RegisterSheet.All[0].Template, weights]));
        var row = read.File.Rows.ShouldHaveSingleItem().ShouldBeOfType<WeightRow>();
        (row.Place.Words, row.Serial, row.Card.Nominal).ShouldBe(("Check weights, row 2", "1001", Mass.FromGrams(0.5m)));
        read.Notes.ShouldBe(["The sheet “Notes” is passed over: it has no column of equipment that an import takes."]);
    }

    [Fact]
    public void Every_template_is_a_register_with_nothing_in_it()
    {
        foreach (var sheet in RegisterSheet.All)
        {
            RegisterFileReading.Read(sheet.FileName, TableWriting.Csv(sheet.Template)).File.Rows.ShouldBeEmpty();
            sheet.Columns.Select(column => ExchangeColumn.Plain(column.Title)).ShouldBeUnique();
            sheet.Columns.Select(column => column.Member).ShouldBeUnique();
        }

        RegisterFileReading.Read("all", TableWriting.Workbook([.. RegisterSheet.All.Select(sheet => sheet.Template)])).File.Rows.ShouldBeEmpty();
    }

    private static ReadRegister Read(string text) => RegisterFileReading.Read("register.csv", Encoding.UTF8.GetBytes(text));
}
