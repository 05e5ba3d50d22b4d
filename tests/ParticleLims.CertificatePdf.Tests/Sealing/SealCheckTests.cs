using System.Text;
using ParticleLims.CertificatePdf.Sealing;
using Shouldly;
using Xunit;

namespace ParticleLims.CertificatePdf.Tests.Sealing;

public sealed class SealCheckTests
{
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

    [Fact]
    public void The_other_number_that_holds_as_well_is_not_accepted_and_the_curve_is_the_one_we_think()
    {
        using var curve = System.Security.Cryptography.ECDsa.Create(System.Security.Cryptography.ECCurve.NamedCurves.nistP256);
        new System.Numerics.BigInteger(curve.ExportExplicitParameters(false).Curve.Order!, isUnsigned: true, isBigEndian: true).ShouldBe(SignatureForm.Order);
        for (var time = 0; time < 16; time++)
        {
            var signature = Certificates.Keys.Current("Tarnfell Milling").Sign([(byte)time]);
            (SignatureForm.IsLower(signature), SignatureForm.IsPlain(signature)).ShouldBe((true, true));
            var (r, s) = SignatureForm.Read(signature);
            var twin = SignatureForm.Write(r, SignatureForm.Order - s);
            (SignatureForm.IsLower(twin), SignatureForm.IsPlain(twin)).ShouldBe((false, true));
            SignatureForm.Lower(twin).ShouldBe(signature);
        }
    }

    [Fact]
    public void A_file_made_to_tire_the_check_is_answered_without_hashing_it_again_and_again()
    {
        // Every range fits the file to the byte, and each points at room for a signature of its own.
        const int Rooms = 1_000;
        var (ranges, room) = (Rooms * PdfSeal.OpenRange.Length, PdfSeal.SignatureDigits + 2);
        var file = new byte[ranges + (Rooms * room) + 1];
        Array.Fill(file, (byte)'0');
        for (var one = 0; one < Rooms; one++)
        {
            var begin = ranges + (one * room);
            Encoding.ASCII.GetBytes(PdfSeal.RangeText(begin, begin + room, file.Length)).CopyTo(file, one * PdfSeal.OpenRange.Length);
            (file[begin], file[begin + room - 1]) = ((byte)'<', (byte)'>');
        }

        SealedFile.Outcome(file).ShouldBe(SealOutcome.Changed);
        SealedFile.Outcome(new byte[SealCheck.LargestFile + 1]).ShouldBe(SealOutcome.NotSealed);
    }

    [Fact]
    public void An_attachment_that_unfolds_without_end_under_another_key_eats_no_memory()
    {
        using var key = SealKey.Make("Somebody", DateTimeOffset.UnixEpoch.AddYears(50));
        var file = PdfSeal.Seal(Certificates.Writer.Draw(Certificates.Typical), new byte[200_000_000], key, new SealParticulars("Somebody", DateTimeOffset.UnixEpoch, "big.json"));
        file.Length.ShouldBeLessThan(500_000);
        var before = GC.GetAllocatedBytesForCurrentThread();
        SealedFile.Outcome(file).ShouldBe(SealOutcome.Changed);
        (GC.GetAllocatedBytesForCurrentThread() - before).ShouldBeLessThan(100_000_000);
    }
}
