using System.Collections.Concurrent;
using System.Security.Cryptography;
using ParticleLims.CertificatePdf.Sealing;
using ParticleLims.CertificatePdf.Tests.Sealing;
using ParticleLims.Laboratory.Certificates;
using ParticleLims.TestLaboratory.SmallLaboratories;
using ParticleLims.Web.Certificates;
using ParticleLims.Web.Start;
using Shouldly;
using Xunit;

namespace ParticleLims.Web.Tests.Certificates;

/// <summary>Files made from certificates that the program itself issued, by both ways in which a customer checks them: the fingerprint on the check page, and the command at the console.</summary>
public sealed class AlteredCertificateTests
{
    private const int Seed = 4711;
    private const int Files = 10_000;
    // The command writes words for people; the check behind it meets ten thousand of its own in AlteredFileTests.
    private const int AtTheConsole = 2_000;

    [Fact]
    public async Task None_of_ten_thousand_altered_files_is_genuine_to_the_check_page_or_to_the_command()
    {
        await using var web = await RunningWeb.StartAsync();
        var small = await SmallLaboratory.SetUpAsync(web.Services, sievingSeconds: 1);
        var lot = await (await small.BookInAsync(small.Calcite)).ReleaseAsync(Powder.Calcite);
        var (issuing, shelf, quality) = (web.Get<CertificateIssue>(), web.Get<CertificateShelf>(), small.People.QualityManager.Actor);
        var first = await issuing.IssueAsync(quality, lot.Id, lot.Sample.Id, null, default);
        var second = await issuing.ReviseAsync(quality, first, "The order's number", "The customer gave a wrong one", 1, null, default);
        var (original, other) = ((await shelf.DownloadAsync(quality, first, default))!.Pdf, (await shelf.DownloadAsync(quality, second, default))!.Pdf);
        var keys = web.Get<SealKeys>().Certificates();
        var check = web.Get<CertificateCheck>();
        (await OutcomeAsync(check, original), await OutcomeAsync(check, other)).ShouldBe(("superseded", "genuine"));
        (await SealCommands.VerifyAsync(TextWriter.Null, original, keys)).ShouldBe(0);

        using var alterations = new Alterations(Seed, original, other, keys[^1]);
        var wrong = new ConcurrentBag<string>();
        await Parallel.ForEachAsync(Enumerable.Range(0, Files), async (trial, token) =>
        {
            var altered = alterations.Make(trial);
            if (await OutcomeAsync(check, altered.Bytes) is not "notOurs" and var outcome)
            {
                wrong.Add($"{altered.What}: the check page says {outcome}");
            }

            if (trial < AtTheConsole && await SealCommands.VerifyAsync(TextWriter.Null, altered.Bytes, keys) is var status and not (1 or 2))
            {
                wrong.Add($"{altered.What}: the command ends with {status}");
            }
        });
        wrong.ShouldBeEmpty();
    }

    private static async Task<string> OutcomeAsync(CertificateCheck check, byte[] file) => CheckAnswer.Of(await check.ByFileHashAsync(Convert.ToHexString(SHA256.HashData(file)), default)).Outcome;
}
