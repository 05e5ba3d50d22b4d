using System.Text;
using ParticleLims.Analysis.Quantities;
using ParticleLims.Instruments.Readings;
using Shouldly;
using Xunit;

namespace ParticleLims.Instruments.Tests.Readings;

public sealed class ReadingPipelineTests
{
    private static readonly DateTimeOffset At = new(2026, 3, 2, 8, 15, 0, TimeSpan.Zero);
    private static readonly ReadingFormat WholeFromTheStart = PlainLine.Format with { FirstLineMayBeCut = false };

    [Fact]
    public void Lines_come_out_the_same_however_the_bytes_are_cut()
    {
        var lines = Enumerable.Range(0, 20).Select(i => PlainLine.Write(Mass.FromGrams(i), 3, i % 2 == 0, "7", false)).ToArray();
        var bytes = Encoding.ASCII.GetBytes(string.Concat(lines.Select(line => line + "\r\n")));
        for (var piece = 1; piece <= 60; piece++)
        {
            var pipeline = new ReadingPipeline(WholeFromTheStart);
            bytes.Chunk(piece).SelectMany(chunk => pipeline.Add(chunk, At)).Select(line => line.RawLine).ShouldBe(lines);
            pipeline.End(At).ShouldBeNull();
        }
    }

    [Fact]
    public void The_first_line_is_not_used_where_it_may_be_cut()
    {
        var pipeline = new ReadingPipeline(PlainLine.Format);
        var lines = pipeline.Add("S +   312.3450 g 0417\r\nS +   312.3450 g 0417\r\n"u8, At);
        lines[0].ShouldBeOfType<RejectedLine>().Code.ShouldBe(RejectionCode.Partial);
        lines[1].ShouldBeOfType<BalanceReading>();
    }

    [Fact]
    public void A_piece_left_when_the_link_ends_is_refused_even_if_it_looks_whole()
    {
        var pipeline = new ReadingPipeline(WholeFromTheStart);
        pipeline.Add("S +   312.3450 g 0417"u8, At).ShouldBeEmpty();
        pipeline.End(At).ShouldNotBeNull().Code.ShouldBe(RejectionCode.Partial);
        pipeline.End(At).ShouldBeNull();
    }

    [Fact]
    public void Two_lines_run_together_give_no_mass()
    {
        var pipeline = new ReadingPipeline(WholeFromTheStart);
        pipeline.Add("S +   312.3450 g 0417S +   312.3450 g 0417\r\n"u8, At).Single().ShouldBeOfType<RejectedLine>();
    }

    [Theory]
    [InlineData("\n")]
    [InlineData("\r\n")]
    [InlineData("\r\n\r\n")]
    public void A_line_without_end_costs_one_refusal_and_no_memory_and_the_next_is_read(string terminator)
    {
        var pipeline = new ReadingPipeline(WholeFromTheStart with { LineTerminator = terminator });
        for (var i = 0; i < 1000; i++)
        {
            pipeline.Add(new byte[1000], At).ShouldBeEmpty();
        }

        var lines = pipeline.Add(Encoding.ASCII.GetBytes($"tail{terminator}S +   312.3450 g 0417{terminator}"), At);
        lines[0].ShouldBeOfType<RejectedLine>().Code.ShouldBe(RejectionCode.TooLong);
        lines[1].ShouldBeOfType<BalanceReading>();
        lines.Count.ShouldBe(2);
    }

    [Theory]
    [InlineData(7, 8, "\r\n")]
    [InlineData(8, 8, "\r\n")]
    [InlineData(9, 9, "\r\n")]
    [InlineData(10, 9, "\r\n")]
    [InlineData(11, 9, "\r\n")]
    [InlineData(8, 8, "\n")]
    [InlineData(9, 9, "\n")]
    [InlineData(10, 9, "\n")]
    public void A_line_is_whole_up_to_the_bound_and_one_character_more_beyond_it(int length, int given, string terminator)
    {
        var assembler = new LineAssembler(terminator, maxLength: 8);
        var line = assembler.Add(Encoding.ASCII.GetBytes(new string('x', length) + terminator)).Single();
        line.Length.ShouldBe(Math.Min(length, given));
        assembler.TakeRest().ShouldBeNull();
    }
}
