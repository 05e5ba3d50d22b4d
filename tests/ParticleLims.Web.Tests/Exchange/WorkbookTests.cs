using System.IO.Compression;
using System.Text;
using CsCheck;
using DocumentFormat.OpenXml.Packaging;
using DocumentFormat.OpenXml.Validation;
using ParticleLims.Laboratory.Record;
using ParticleLims.Web.Exchange;
using Shouldly;
using Xunit;

namespace ParticleLims.Web.Tests.Exchange;

/// <summary>Workbooks: what is written is a valid one, and what is read is taken as it stands and no further.</summary>
public sealed class WorkbookTests
{
    private const string Main = "http://schemas.openxmlformats.org/spreadsheetml/2006/main";
    private const string Relations = "http://schemas.openxmlformats.org/officeDocument/2006/relationships";

    [Fact]
    public void Texts_numbers_and_days_are_read_as_they_were_written_and_the_workbook_is_valid()
    {
        var sheets = new[] { TableSheet.Of("Test sieves", [[TableCell.Of("Name"), TableCell.Of("Number"), TableCell.Of("Day")], [TableCell.Of("=1+1"), TableCell.Of(0.1m), TableCell.Of(new DateOnly(2026, 3, 2))], [TableCell.Of("00123"), TableCell.Of(-63.045m), TableCell.Empty]]), TableSheet.Of("Balances", [[TableCell.Of("µ & <b>")]]) };
        var bytes = TableWriting.Workbook(sheets);
        using (var document = SpreadsheetDocument.Open(new MemoryStream(bytes), isEditable: false))
        {
            new OpenXmlValidator().Validate(document).Select(error => error.Description).ShouldBeEmpty();
        }

        var read = TableFile.Read(bytes);
        read.Select(sheet => sheet.Name).ShouldBe(["Test sieves", "Balances"]);
        read[0].Rows.Select(row => row.Number).ShouldBe([1, 2, 3]);
        read[0].Rows[1].Cells.ShouldBe([TableCell.Of("=1+1"), TableCell.Of(0.1m), TableCell.Of(new DateOnly(2026, 3, 2))]);
        read[0].Rows[2].Cells.ShouldBe([TableCell.Of("00123"), TableCell.Of(-63.045m)]);
        read[1].Rows[0].Cells.ShouldBe([TableCell.Of("µ & <b>")]);
    }

    [Fact]
    public void Every_number_of_a_register_comes_back_to_its_last_digit() => Gen.Select(Gen.Long[0, 99_999_999_999_999], Gen.Int[0, 6]).Sample((digits, decimals) =>
    {
        var number = digits / (decimal)Math.Pow(10, decimals);
        TableFile.Read(TableWriting.Workbook([TableSheet.Of("S", [[TableCell.Of(number)]])]))[0].Rows[0][0].Number.ShouldBe(number);
    }, iter: 50);

    [Theory]
    [InlineData("<c r='A1'><f>6*10.5</f><v>63</v></c>", "63", null)]
    [InlineData("<c r='A1' t='str'><f>HYPERLINK(\"http://127.0.0.1\")</f><v>TS-1</v></c>", "TS-1", null)]
    [InlineData("<c r='A1'><f>6*10.5</f></c>", "", "formula without a stored value")]
    [InlineData("<c r='A1' t='e'><v>#REF!</v></c>", "#REF!", "holds the error #REF!")]
    [InlineData("<c r='A1' t='b'><v>1</v></c>", "TRUE", null)]
    [InlineData("<c r='A1'><v>1.0000000000000001E-1</v></c>", "0.1", null)]
    [InlineData("<c r='A1'><v>1234567890123456</v></c>", "1234567890123456", "only fifteen digits are certain")]
    [InlineData("<c r='A1' t='s'><v>1</v></c>", "TS-063-1", null)]
    [InlineData("<c r='A1' t='d'><v>2026-03-02T00:00:00</v></c>", "2026-03-02", null)]
    [InlineData("<c r='A1' s='1'><v>46083</v></c>", "2026-03-02", null)]
    [InlineData("<c r='A1' s='2'><v>46083.75</v></c>", "2026-03-02", null)]
    [InlineData("<c r='A1' s='3'><v>46083</v></c>", "46083", null)]
    [InlineData("<c r='A1' s='1'><v>-4</v></c>", "-4", "formatted as a day and is none")]
    [InlineData("<c r='A1' t='inlineStr'><is><r><t>TS-</t></r><r><t>7</t></r></is></c>", "TS-7", null)]
    public void A_cell_is_read_as_it_is_stored(string cell, string text, string? trouble)
    {
        var read = TableFile.Read(Book($"<row r='1'>{cell}</row>")).ShouldHaveSingleItem().Rows.ShouldHaveSingleItem()[0];
        read.Text.ShouldBe(text);
        (read.Trouble ?? "none").ShouldContain(trouble ?? "none");
    }

    [Fact]
    public void Days_counted_from_1904_are_the_same_days() =>
        TableFile.Read(Book("<row r='1'><c r='A1' s='1'><v>44621</v></c></row>", "<workbookPr date1904='1'/>"))[0].Rows[0][0].Day.ShouldBe(new DateOnly(2026, 3, 2));

    [Fact]
    public void Cells_and_rows_that_are_not_there_leave_their_places_empty()
    {
        var row = TableFile.Read(Book("<row r='2'><c r='C2'><v>7</v></c></row><row r='9'><c r='A9'><v>8</v></c></row>"))[0].Rows;
        row.Select(one => one.Number).ShouldBe([2, 9]);
        row[0].Cells.Select(cell => cell.Text).ShouldBe(["", "", "7"]);
    }

    [Fact]
    public void Cells_that_do_not_say_where_they_stand_follow_each_other_empty_ones_too() =>
        TableFile.Read(Book("<row><c/><c><v>7</v></c><c/><c r='F1'/><c><v>8</v></c></row>"))[0].Rows[0].Cells.Select(cell => cell.Text).ShouldBe(["", "7", "", "", "", "", "8"]);

    [Fact]
    public void What_unpacks_to_more_than_is_allowed_is_refused_whatever_it_says_of_its_size()
    {
        var bomb = Packed(("xl/workbook.xml", new byte[WorkbookReading.LargestUnpacked + 1]));
        bomb.Length.ShouldBeLessThan(TableFile.Largest);
        Should.Throw<RefusedException>(() => TableFile.Read(bomb)).Code.ShouldBe("table-unpacked");
        Should.Throw<RefusedException>(() => TableFile.Read(Understated(bomb))).Code.ShouldBeOneOf("table-unpacked", "table-workbook");
        Should.Throw<RefusedException>(() => TableFile.Read(Packed([.. Enumerable.Range(0, 501).Select(index => ($"part{index}.xml", new byte[1]))]))).Code.ShouldBe("table-unpacked");
    }

    [Fact]
    public void A_document_type_in_a_sheet_is_not_followed()
    {
        var bytes = Book("<row r='1'><c r='A1' t='inlineStr'><is><t>&secret;</t></is></c></row>", before: "<!DOCTYPE x [<!ENTITY secret SYSTEM 'file:///etc/hostname'>]>");
        Should.Throw<RefusedException>(() => TableFile.Read(bytes)).Code.ShouldBe("table-workbook");
    }

    [Fact]
    public void A_broken_workbook_is_refused_in_words_and_nothing_else_escapes()
    {
        var whole = TableWriting.Workbook([TableSheet.Of("S", [[TableCell.Of("Serial number"), TableCell.Of(63m)]])]);
        Gen.Select(Gen.Int[0, whole.Length - 1], Gen.Byte).Sample((at, value) =>
        {
            byte[] broken = [.. whole];
            broken[at] = value;
            ReadOrRefuse(broken);
            ReadOrRefuse(whole[..at]);
        }, iter: 200);

        static void ReadOrRefuse(byte[] bytes)
        {
            try
            {
                TableFile.Read(bytes).Count.ShouldBeLessThanOrEqualTo(1);
            }
            catch (RefusedException refusal)
            {
                refusal.Message.ShouldNotBeEmpty();
            }
        }
    }

    [Theory]
    [InlineData("%PDF-1.7 …", "PDF document")]
    [InlineData("<html><table></table></html>", "web page")]
    [InlineData("", "empty")]
    [InlineData("a,b\n\u0001,2", "neither a CSV table nor an XLSX workbook")]
    [InlineData("PK\u0003\u0004 and nothing more", "cannot be read as one")]
    public void A_file_is_what_it_holds_and_not_what_its_name_says(string content, string words) => Should.Throw<RefusedException>(() => TableFile.Read(Encoding.UTF8.GetBytes(content))).Message.ShouldContain(words);

    [Fact]
    public void Old_workbooks_pictures_other_encodings_and_large_files_are_refused_in_words()
    {
        Should.Throw<RefusedException>(() => TableFile.Read([0xD0, 0xCF, 0x11, 0xE0, 0xA1, 0xB1, 0x1A, 0xE1, 0])).Message.ShouldContain("protected by a password");
        Should.Throw<RefusedException>(() => TableFile.Read([0x89, 0x50, 0x4E, 0x47, 0x0D])).Message.ShouldContain("picture");
        Should.Throw<RefusedException>(() => TableFile.Read([(byte)'a', 0xB5, (byte)'m'])).Message.ShouldContain("UTF-8");
        Should.Throw<RefusedException>(() => TableFile.Read(new byte[TableFile.Largest + 1])).Message.ShouldContain("larger than 5 MB");
    }

    private static byte[] Book(string rows, string properties = "", string before = "") => Packed(
        Part("[Content_Types].xml", "<Types xmlns='http://schemas.openxmlformats.org/package/2006/content-types'><Default Extension='xml' ContentType='application/xml'/><Default Extension='rels' ContentType='application/vnd.openxmlformats-package.relationships+xml'/><Override PartName='/xl/workbook.xml' ContentType='application/vnd.openxmlformats-officedocument.spreadsheetml.sheet.main+xml'/><Override PartName='/xl/s.xml' ContentType='application/vnd.openxmlformats-officedocument.spreadsheetml.worksheet+xml'/><Override PartName='/xl/t.xml' ContentType='application/vnd.openxmlformats-officedocument.spreadsheetml.sharedStrings+xml'/><Override PartName='/xl/y.xml' ContentType='application/vnd.openxmlformats-officedocument.spreadsheetml.styles+xml'/></Types>"),
        Part("_rels/.rels", $"<Relationships xmlns='http://schemas.openxmlformats.org/package/2006/relationships'><Relationship Id='r' Type='{Relations}/officeDocument' Target='xl/workbook.xml'/></Relationships>"),
        Part("xl/_rels/workbook.xml.rels", $"<Relationships xmlns='http://schemas.openxmlformats.org/package/2006/relationships'><Relationship Id='a' Type='{Relations}/worksheet' Target='s.xml'/><Relationship Id='b' Type='{Relations}/sharedStrings' Target='t.xml'/><Relationship Id='c' Type='{Relations}/styles' Target='y.xml'/></Relationships>"),
        Part("xl/workbook.xml", $"<workbook xmlns='{Main}' xmlns:r='{Relations}'>{properties}<sheets><sheet name='S' sheetId='1' r:id='a'/></sheets></workbook>"),
        Part("xl/s.xml", $"{before}<worksheet xmlns='{Main}'><sheetData>{rows}</sheetData></worksheet>"),
        Part("xl/t.xml", $"<sst xmlns='{Main}'><si><t>Serial number</t></si><si><r><t>TS-063</t></r><r><t>-1</t></r></si></sst>"),
        Part("xl/y.xml", $"<styleSheet xmlns='{Main}'><numFmts><numFmt numFmtId='170' formatCode='dd\\.mm\\.yyyy hh:mm'/><numFmt numFmtId='171' formatCode='0.00 \"days\"'/></numFmts><cellXfs><xf/><xf numFmtId='14'/><xf numFmtId='170'/><xf numFmtId='171'/></cellXfs></styleSheet>"));

    private static (string Name, byte[] Content) Part(string name, string xml) => (name, Encoding.UTF8.GetBytes(xml));

    private static byte[] Packed(params (string Name, byte[] Content)[] parts)
    {
        using var stream = new MemoryStream();
        using (var archive = new ZipArchive(stream, ZipArchiveMode.Create, leaveOpen: true))
        {
            foreach (var (name, content) in parts)
            {
                using var entry = archive.CreateEntry(name, CompressionLevel.SmallestSize).Open();
                entry.Write(content);
            }
        }

        return stream.ToArray();
    }

    // Writes one byte as the unpacked size into the central directory (APPNOTE.TXT 4.3.12: 24 bytes behind its signature).
    private static byte[] Understated(byte[] archive)
    {
        byte[] changed = [.. archive];
        var directory = changed.AsSpan().LastIndexOf("PK\u0001\u0002"u8);
        changed.AsSpan(directory + 24, 4).Clear();
        changed[directory + 24] = 1;
        return changed;
    }
}
