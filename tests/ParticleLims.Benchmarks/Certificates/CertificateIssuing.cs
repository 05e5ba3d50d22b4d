using System.Diagnostics;
using System.Globalization;
using Microsoft.Extensions.DependencyInjection;
using ParticleLims.CertificatePdf;
using ParticleLims.CertificatePdf.Sealing;
using ParticleLims.Laboratory.Certificates;
using ParticleLims.TestLaboratory;
using ParticleLims.TestLaboratory.SmallLaboratories;

namespace ParticleLims.Benchmarks.Certificates;

/// <summary>Issues a certificate again and again, withdrawing it in between, in turn with drawing it alone and with a bare insert of as many bytes.</summary>
internal sealed class CertificateIssuing(OpenedSmallLaboratory laboratory, TestLot lot, BareInsert bare)
{
    private const int WarmUp = 5;

    private readonly Timings issued = new("certificate issued by the service, on disk");
    private readonly Timings drawn = new("certificate drawn, its twin attached, sealed");
    private readonly Timings least = new("bare INSERT of as many bytes, WAL, synchronous=FULL");
    private readonly CertificatePdfWriter writer = new(new SealKeys(null, TimeProvider.System));
    private int bytes;

    /// <summary>Issues so many and prints the times.</summary>
    public static async Task<int> RunAsync(int certificates)
    {
        await using var laboratory = await OpenedSmallLaboratory.OpenAsync(DatabaseKind.Sqlite, services => services.AddSingleton(new SealKeys(null, TimeProvider.System)).AddSingleton<ICertificateDrawing, CertificatePdfWriter>());
        var lot = await (await laboratory.Small.BookInAsync(laboratory.Small.Calcite)).ReleaseAsync(Powder.Calcite);
        using var bare = new BareInsert(Path.GetDirectoryName(laboratory.Running.Database.Place)!);
        var issuing = new CertificateIssuing(laboratory, lot, bare);
        for (var count = 0; count < certificates + WarmUp; count++)
        {
            await issuing.OnceAsync(timed: count >= WarmUp);
        }

        issuing.Print();
        return 0;
    }

    /// <summary>The content of a certificate of the small laboratory, for who only wants to draw.</summary>
    public static async Task<CertificateContent> ContentAsync()
    {
        await using var laboratory = await OpenedSmallLaboratory.OpenAsync(DatabaseKind.Sqlite, services => services.AddSingleton(new SealKeys(null, TimeProvider.System)).AddSingleton<ICertificateDrawing, CertificatePdfWriter>());
        var lot = await (await laboratory.Small.BookInAsync(laboratory.Small.Calcite)).ReleaseAsync(Powder.Calcite);
        var id = await laboratory.Small.Desk.IssueAsync(lot.Id, lot.Sample.Id);
        await using var data = laboratory.Data();
        return CertificateIssue.ReadContent((await data.FindAsync<Certificate>(id))!);
    }

    private async Task OnceAsync(bool timed)
    {
        var started = Stopwatch.GetTimestamp();
        var id = await laboratory.Small.Desk.IssueAsync(lot.Id, lot.Sample.Id);
        var ended = Stopwatch.GetTimestamp();
        await using var data = laboratory.Data();
        var certificate = (await data.FindAsync<Certificate>(id))!;
        var content = CertificateIssue.ReadContent(certificate);
        var drawing = Stopwatch.GetTimestamp();
        var pdf = writer.DrawSealed(content, certificate.Content);
        if (timed)
        {
            drawn.AddSince(drawing);
            issued.Add(Stopwatch.GetElapsedTime(started, ended));
            bare.Time(least, pdf);
            bytes = pdf.Length;
        }

        await laboratory.Get<CertificateIssue>().WithdrawAsync(laboratory.Small.People.QualityManager.Actor, id, "Issued to be measured", certificate.Version, CancellationToken.None);
    }

    private void Print()
    {
        Console.Out.WriteLine(string.Create(CultureInfo.InvariantCulture, $"A certificate of one page with four sieves and the curve, {bytes} bytes."));
        Console.Out.WriteLine(issued);
        Console.Out.WriteLine(drawn);
        Console.Out.WriteLine(least);
        Console.Out.WriteLine(issued.Against(drawn));
        Console.Out.WriteLine(issued.Against(least));
    }
}
