using System.Text;
using ParticleLims.CertificatePdf.Sealing;
using Shouldly;
using Xunit;

namespace ParticleLims.CertificatePdf.Tests.Sealing;

public sealed class SealCheckTests
{
    private const int Seed = 20261126;

    [Fact]
    public void An_issued_file_is_genuine_and_gives_its_twin_back()
    {
        var twin = ParticleLims.Laboratory.Certificates.CertificateIssue.WriteContent(Certificates.Typical);
        var found = SealCheck.Check(SealedFile.Typical, Certificates.Keys.Certificates());
        found.Outcome.ShouldBe(SealOutcome.Genuine);
        Encoding.UTF8.GetString(found.Twin!).ShouldBe(twin);
        found.ContentHash.ShouldBe(ParticleLims.Laboratory.Record.RecordChain.HashOf(twin));
    }

    [Fact]
    public void Of_ten_thousand_altered_files_none_is_accepted()
    {
        var chance = new Random(Seed);
        var original = SealedFile.Typical;
        var accepted = new List<string>();
        for (var trial = 0; trial < 10_000; trial++)
        {
            var (altered, what) = Alter(original, chance, trial);
            if (!altered.AsSpan().SequenceEqual(original) && SealedFile.Outcome(altered) is SealOutcome.Genuine or SealOutcome.KeyUnknown)
            {
                accepted.Add(what);
            }
        }

        accepted.ShouldBeEmpty();
        SealedFile.Outcome(original).ShouldBe(SealOutcome.Genuine);
    }

    [Fact]
    public void No_single_digit_of_the_signature_can_be_changed()
    {
        var original = SealedFile.Typical;
        var begin = original.AsSpan().LastIndexOf("/Contents<"u8) + "/Contents<".Length;
        var changed = Enumerable.Range(0, PdfSeal.SignatureDigits).Where(place =>
        {
            var file = (byte[])original.Clone();
            file[begin + place] = file[begin + place] == (byte)'0' ? (byte)'1' : (byte)'0';
            return SealedFile.Outcome(file) is SealOutcome.Genuine or SealOutcome.KeyUnknown;
        });
        changed.ShouldBeEmpty();
        var capital = (byte[])original.Clone();
        var letter = begin + capital.AsSpan(begin).IndexOfAnyInRange((byte)'a', (byte)'f');
        capital[letter] -= 32;
        SealedFile.Outcome(capital).ShouldBe(SealOutcome.Changed, "the same number written in another way is another file");
    }

    [Fact]
    public void A_revision_appended_behind_the_seal_is_not_accepted()
    {
        byte[] longer = [.. SealedFile.Typical, .. "\n1 0 obj\n<</Title(Another)>>\nendobj\nstartxref\n9\n%%EOF\n"u8];
        SealedFile.Outcome(longer).ShouldBe(SealOutcome.Changed);
    }

    [Fact]
    public void A_file_sealed_by_somebody_else_is_told_apart()
    {
        using var keys = new SealKeys(null, TimeProvider.System);
        var foreign = new CertificatePdfWriter(keys).DrawSealed(Certificates.Typical, "{}");
        SealedFile.Outcome(foreign).ShouldBe(SealOutcome.KeyUnknown);
        SealCheck.Check(foreign, keys.Certificates()).Outcome.ShouldBe(SealOutcome.Genuine);
    }

    [Fact]
    public void A_file_without_a_seal_says_so()
    {
        SealedFile.Outcome(Certificates.Writer.Draw(Certificates.Typical)).ShouldBe(SealOutcome.NotSealed);
        SealedFile.Outcome([]).ShouldBe(SealOutcome.NotSealed);
        SealedFile.Outcome("%PDF-1.7"u8.ToArray()).ShouldBe(SealOutcome.NotSealed);
    }

    /// <summary>Flipped bits, bytes cut, put in, doubled, exchanged, ends cut off or added.</summary>
    private static (byte[] File, string What) Alter(byte[] original, Random chance, int trial)
    {
        var place = chance.Next(original.Length);
        var length = chance.Next(1, 64);
        var end = Math.Min(original.Length, place + length);
        var what = $"seed {Seed}, trial {trial}, kind {trial % 6}, at {place}, length {length}";
        return (trial % 6) switch
        {
            0 => (Flipped(original, place, 1 << chance.Next(8)), what),
            1 => ([.. original[..place], .. original[end..]], what),
            2 => ([.. original[..place], .. Bytes(chance, length), .. original[place..]], what),
            3 => ([.. original[..place], .. Bytes(chance, end - place), .. original[end..]], what),
            4 => ([.. original[..end], .. original[place..]], what),
            _ => (chance.Next(2) == 0 ? original[..place] : [.. original, .. Bytes(chance, length)], what),
        };
    }

    private static byte[] Flipped(byte[] original, int place, int mask)
    {
        var file = (byte[])original.Clone();
        file[place] ^= (byte)mask;
        return file;
    }

    private static byte[] Bytes(Random chance, int count)
    {
        var bytes = new byte[count];
        chance.NextBytes(bytes);
        return bytes;
    }
}
