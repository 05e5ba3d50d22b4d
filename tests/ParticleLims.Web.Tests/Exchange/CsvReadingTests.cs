using System.Text;
using CsCheck;
using ParticleLims.Laboratory.Record;
using ParticleLims.Web.Exchange;
using Shouldly;
using Sylvan.Data.Csv;
using Xunit;

namespace ParticleLims.Web.Tests.Exchange;

/// <summary>Text tables. The independent reader in the properties is Sylvan.Data.Csv.</summary>
public sealed class CsvReadingTests
{
    private static readonly Gen<string> Content = Gen.Char["ab1µ ,;\t\"'=\r\n.-"].Array[0, 12].Select(letters => new string(letters).Replace("\r", "\r\n", StringComparison.Ordinal).Trim());

    [Fact]
    public void Whatever_is_written_is_read_again()
    {
        Content.Array[3].Array[1, 8].Where(rows => rows.All(row => row.Any(cell => cell.Length > 0))).Sample(rows =>
        {
            var written = Encoding.UTF8.GetString(TableWriting.Csv(TableSheet.Of(null, rows.Prepend(["first", "second", "third"]).Select(Cells))));
            Texts(CsvReading.Read(written.TrimStart('\uFEFF')).Skip(1)).ShouldBe(rows.Select(row => row.Select(Guarded).ToList()));
        });
    }

    [Fact]
    public void Another_reader_reads_the_same()
    {
        Content.Array[3].Array[1, 8].Where(rows => rows.All(row => row.Any(cell => cell.Length > 0))).Sample(rows =>
        {
            var text = string.Concat(rows.Prepend(["first", "second", "third"]).Select(row => string.Join(',', row.Select(cell => $"\"{cell.Replace("\"", "\"\"", StringComparison.Ordinal)}\"")) + "\r\n"));
            using var other = CsvDataReader.Create(new StringReader(text), new CsvDataReaderOptions { Delimiter = ',' });
            var theirs = new List<List<string>>();
            while (other.Read())
            {
                theirs.Add([.. Enumerable.Range(0, 3).Select(other.GetString)]);
            }

            Texts(CsvReading.Read(text).Skip(1)).ShouldBe(theirs);
        });
    }

    [Theory]
    [InlineData("a,b\r\n1,2\r\n")]
    [InlineData("a;b\r\n1;2\r\n")]
    [InlineData("a\tb\n1\t2")]
    [InlineData("a,b\r1,2\r")]
    [InlineData("\n\na,b\n1,2")]
    [InlineData("\"a\";\"b\"\n\"1\" ;\"2\"\n")]
    public void Each_separator_and_end_of_line_is_understood(string text) => Texts(CsvReading.Read(text)).ShouldBe([["a", "b"], ["1", "2"]]);

    [Fact]
    public void A_separator_within_quotation_marks_parts_nothing_and_empty_rows_are_counted_and_left_out()
    {
        var rows = CsvReading.Read("a;b\n\n;\n\"1,5;\n2\";\"say \"\"so\"\"\"\n");
        rows.Select(row => row.Number).ShouldBe([1, 4]);
        Texts(rows)[1].ShouldBe(["1,5;\n2", "say \"so\""]);
    }

    [Theory]
    [InlineData("a,b\n1,\"2\n3,4", "Row 2 opens a quotation mark and does not close it")]
    [InlineData("a,b\n1,\"2\"x\n", "Row 2 has something behind a closing quotation mark")]
    public void A_quotation_mark_in_the_wrong_place_is_named_with_its_row(string text, string words) => Should.Throw<RefusedException>(() => CsvReading.Read(text)).Message.ShouldContain(words);

    [Fact]
    public void Too_much_is_refused_and_not_read_to_its_end()
    {
        Should.Throw<RefusedException>(() => CsvReading.Read(string.Concat(Enumerable.Repeat("a,b\n", TableFile.MostRows + 1)))).Message.ShouldContain("more than 5100 rows");
        Should.Throw<RefusedException>(() => CsvReading.Read("a,b\n" + new string(',', 300))).Message.ShouldContain("Row 2 has more than 200 cells");
        Should.Throw<RefusedException>(() => CsvReading.Read("a,b\n" + new string('x', 3_000))).Message.ShouldContain("Row 2 has a cell of more than 2000 characters");
    }

    private static IReadOnlyList<TableCell> Cells(string[] texts) => [.. texts.Select(TableCell.Of)];

    private static List<List<string>> Texts(IEnumerable<TableRow> rows) => [.. rows.Select(row => row.Cells.Select(cell => cell.Text).ToList())];

    private static string Guarded(string text) => text.Length > 0 && "=+-@".Contains(text[0], StringComparison.Ordinal) ? "'" + text : text;
}
