using System.Text;
using Microsoft.Extensions.Time.Testing;
using ParticleLims.Analysis.Quantities;
using ParticleLims.Instruments.Connections;
using ParticleLims.Instruments.Readings;
using Shouldly;
using Xunit;

namespace ParticleLims.Instruments.Tests.Connections;

/// <summary>What a screen hands on is raw text that may be anything.</summary>
public sealed class FedLinkTests : IDisposable
{
    private static readonly Mass Sieve = Mass.FromGrams(312.345m);
    private static readonly string Line = PlainLine.Write(Sieve, 4, stable: true, "0417", checksum: false);
    private readonly FakeTimeProvider clock = new(new DateTimeOffset(2026, 3, 2, 8, 15, 0, TimeSpan.Zero));
    private readonly FedLink link;
    private long handed;

    public FedLinkTests() => link = new FedLink(PlainLine.Format with { FirstLineMayBeCut = false }, "0417", clock);

    public void Dispose() => link.Dispose();

    [Fact]
    public void A_line_in_pieces_becomes_a_reading_with_the_servers_own_time()
    {
        link.Opened();
        Hand(Line[..7]);
        clock.Advance(TimeSpan.FromMilliseconds(300));
        Hand(Line[7..] + "\r\n");
        var reading = link.State.Reading.ShouldNotBeNull();
        (reading.Mass, reading.At).ShouldBe((Sieve, clock.GetUtcNow()));
    }

    [Fact]
    public void Where_bytes_are_missing_two_halves_are_never_put_together()
    {
        link.Opened();
        Hand(Line[..8]);
        handed += 28;
        Hand(Line[8..] + "\r\n");
        link.State.Reading.ShouldBeNull();
        link.RecentLines.Select(line => ((RejectedLine)line).Code).ShouldBe([RejectionCode.Partial, RejectionCode.Partial]);

        Hand(Line + "\r\n");
        link.State.Reading.ShouldNotBeNull().Mass.ShouldBe(Sieve);
    }

    [Fact]
    public void Nothing_counts_before_it_was_opened_or_after_it_was_lost()
    {
        Hand(Line + "\r\n");
        link.State.LatestLine.ShouldBeNull();
        link.Opened();
        handed = 0;
        Hand(Line + "\r\n");
        link.Lost("The cable is out.");
        (link.State.Link, link.State.LatestLine, link.State.LostBecause).ShouldBe((BalanceLink.Lost, null, "The cable is out."));
        link.TakeTyped(Line, mayBeCut: false).ShouldBeFalse();
    }

    [Fact]
    public void More_than_a_balance_sends_is_not_read()
    {
        link.Opened();
        var flood = Encoding.ASCII.GetBytes(string.Concat(Enumerable.Repeat(Line + "\r\n", 60)));
        for (var i = 0; i < 100; i++)
        {
            link.Add(handed, flood);
            handed += flood.Length;
        }

        link.State.Rejection.ShouldNotBeNull().Code.ShouldBe(RejectionCode.TooMuch);
        link.RecentLines.Count.ShouldBe(30);
        clock.Advance(TimeSpan.FromSeconds(10));
        Hand("\r\n" + Line + "\r\n");
        link.State.Reading.ShouldNotBeNull();
    }

    [Fact]
    public void A_piece_that_is_too_long_is_not_read()
    {
        link.Opened();
        link.Add(0, new byte[FedLink.LongestPiece + 1]);
        link.State.Rejection.ShouldNotBeNull().Code.ShouldBe(RejectionCode.TooMuch);
    }

    [Fact]
    public void Silence_beyond_the_formats_limit_is_no_link_and_the_next_line_is_one_again()
    {
        link.Opened();
        Hand(Line + "\r\n");
        clock.Advance(TimeSpan.FromSeconds(6));
        (link.State.Link, link.State.LatestLine).ShouldBe((BalanceLink.Lost, null));
        Hand(Line + "\r\n");
        (link.State.Link, link.State.LostBecause).ShouldBe((BalanceLink.Connected, null));
    }

    [Fact]
    public void A_typed_line_of_the_formats_shape_is_a_reading_and_every_other_is_left()
    {
        link.Opened();
        link.TakeTyped("SV-0063-A", mayBeCut: false).ShouldBeFalse();
        link.State.LatestLine.ShouldBeNull("a code is none of the balance's lines");
        link.TakeTyped(Line, mayBeCut: false).ShouldBeTrue();
        link.State.Reading.ShouldNotBeNull().Mass.ShouldBe(Sieve);
    }

    [Fact]
    public void A_typed_line_of_another_balance_or_in_another_unit_is_refused_and_not_left_as_a_code()
    {
        link.Opened();
        link.TakeTyped(Line.Replace("0417", "0418", StringComparison.Ordinal), mayBeCut: false).ShouldBeTrue();
        link.State.Rejection.ShouldNotBeNull().Code.ShouldBe(RejectionCode.WrongSerial);
        link.TakeTyped(Line.Replace(" g ", " oz ", StringComparison.Ordinal), mayBeCut: false).ShouldBeTrue();
        link.State.Rejection.ShouldNotBeNull().Code.ShouldBe(RejectionCode.WrongUnit);
    }

    [Fact]
    public void A_typed_line_whose_beginning_may_be_missing_is_refused()
    {
        link.Opened();
        link.TakeTyped(Line, mayBeCut: true).ShouldBeTrue();
        link.State.Rejection.ShouldNotBeNull().Code.ShouldBe(RejectionCode.Partial);
    }

    [Fact]
    public void A_flood_of_typed_lines_is_neither_read_nor_left_as_codes()
    {
        link.Opened();
        Enumerable.Range(0, 100).Count(_ => !link.TakeTyped("SV-0063-A", mayBeCut: false)).ShouldBe(40);
        link.State.Rejection.ShouldNotBeNull().Code.ShouldBe(RejectionCode.TooMuch);
    }

    private void Hand(string text)
    {
        var bytes = Encoding.Latin1.GetBytes(text);
        link.Add(handed, bytes);
        handed += bytes.Length;
    }
}
