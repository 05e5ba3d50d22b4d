using System.Diagnostics;
using System.Globalization;
using System.Security.Cryptography;
using ParticleLims.CertificatePdf;
using ParticleLims.CertificatePdf.Sealing;
using ParticleLims.Laboratory.Certificates;

namespace ParticleLims.Benchmarks.Certificates;

/// <summary>
/// How many certificates a second: one page with four sieves and the curve, drawn, the twin attached, sealed, kept in memory. Alone, on all cores at once, and in batches of a
/// hundred, of which the last is held against the first: nothing may pile up.
/// </summary>
internal sealed class CertificateRate(CertificateContent content)
{
    private const int InABatch = 100;
    private static readonly TimeSpan OnAllCores = TimeSpan.FromSeconds(5);

    private readonly string twin = CertificateIssue.WriteContent(content);
    private readonly Timings drawn = new("certificate drawn");
    private readonly Timings whole = new("certificate drawn, its twin attached, sealed");
    private readonly Timings firsts = new("the first of a batch");
    private readonly Timings lasts = new("the hundredth of a batch");
    private readonly Timings least = new("as many bytes hashed and signed (SHA-256, ECDSA P-256)");

    /// <summary>Makes so many batches of a hundred and prints the figures.</summary>
    public static async Task<int> RunAsync(int batches)
    {
        var rate = new CertificateRate(await CertificateIssuing.ContentAsync());
        rate.WarmUp();
        for (var batch = 0; batch < batches; batch++)
        {
            rate.Batch();
        }

        rate.Print(rate.Allocated(), rate.OnCores(1), rate.OnCores(Environment.ProcessorCount));
        return 0;
    }

    // Enough for the compiler to have looked at everything twice.
    private void WarmUp()
    {
        using var keys = new SealKeys(null, TimeProvider.System);
        var writer = new CertificatePdfWriter(keys);
        for (var time = 0; time < 200; time++)
        {
            writer.DrawSealed(content, twin);
        }
    }

    private void Batch()
    {
        using var keys = new SealKeys(null, TimeProvider.System);
        using var bare = ECDsa.Create(ECCurve.NamedCurves.nistP256);
        var writer = new CertificatePdfWriter(keys);
        keys.Current(content.Issuer.Name);
        for (var number = 1; number <= InABatch; number++)
        {
            var started = Stopwatch.GetTimestamp();
            var file = writer.DrawSealed(content, twin);
            var took = Stopwatch.GetElapsedTime(started);
            whole.Add(took);
            (number == 1 ? firsts : number == InABatch ? lasts : null)?.Add(took);
            started = Stopwatch.GetTimestamp();
            bare.SignData(file, HashAlgorithmName.SHA256);
            least.AddSince(started);
            started = Stopwatch.GetTimestamp();
            writer.Draw(content);
            drawn.AddSince(started);
        }
    }

    private (long Bytes, int FileBytes) Allocated()
    {
        using var keys = new SealKeys(null, TimeProvider.System);
        var writer = new CertificatePdfWriter(keys);
        var file = writer.DrawSealed(content, twin);
        var before = GC.GetAllocatedBytesForCurrentThread();
        for (var number = 0; number < InABatch; number++)
        {
            writer.DrawSealed(content, twin);
        }

        return ((GC.GetAllocatedBytesForCurrentThread() - before) / InABatch, file.Length);
    }

    private double OnCores(int cores)
    {
        using var keys = new SealKeys(null, TimeProvider.System);
        var writer = new CertificatePdfWriter(keys);
        var (made, started) = (0, Stopwatch.GetTimestamp());
        Parallel.For(0, cores, new ParallelOptions { MaxDegreeOfParallelism = cores }, _ =>
        {
            while (Stopwatch.GetElapsedTime(started) < OnAllCores)
            {
                writer.DrawSealed(content, twin);
                Interlocked.Increment(ref made);
            }
        });
        return made / Stopwatch.GetElapsedTime(started).TotalSeconds;
    }

    private void Print((long Bytes, int FileBytes) size, double alone, double together)
    {
        foreach (var line in new[]
        {
            string.Create(CultureInfo.InvariantCulture, $"A certificate of one page with four sieves, the curve and its twin, {size.FileBytes} bytes."),
            drawn.ToString(), whole.ToString(), least.ToString(), firsts.ToString(), lasts.ToString(), lasts.Against(firsts), whole.Against(drawn), whole.Against(least),
            string.Create(CultureInfo.InvariantCulture, $"allocated for each: {size.Bytes / 1024} kB"),
            string.Create(CultureInfo.InvariantCulture, $"a second: {alone:0} on one core, {together:0} on {Environment.ProcessorCount}; on all to on one = {together / alone:0.00}"),
        })
        {
            Console.Out.WriteLine(line);
        }
    }
}
