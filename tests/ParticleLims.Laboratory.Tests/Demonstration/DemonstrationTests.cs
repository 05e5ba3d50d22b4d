using System.Diagnostics;
using Microsoft.EntityFrameworkCore;
using ParticleLims.Laboratory.Demonstration;
using ParticleLims.Laboratory.Record;
using ParticleLims.TestLaboratory;
using Shouldly;
using Xunit;

namespace ParticleLims.Laboratory.Tests.Demonstration;

public sealed class DemonstrationTests(ITestOutputHelper output)
{
    [Fact]
    public async Task Probe()
    {
        await using var laboratory = await RunningLaboratory.OpenAsync(DatabaseKind.Sqlite);
        var days = int.Parse(Environment.GetEnvironmentVariable("DAYS") ?? "30");
        for (var i = 0; i < 1; i++)
        {
            var watch = Stopwatch.StartNew();
            var access = await laboratory.Get<DemonstrationLaboratory>().OpenAsync(new DemonstrationOptions { PublicAddress = "http://localhost:5000", Days = days }, null, default);
            watch.Stop();
            await using var data = laboratory.Data();
            var events = await data.Events.CountAsync();
            output.WriteLine($"{events} events, {watch.Elapsed.TotalSeconds:0.0} s, {watch.Elapsed.TotalMicroseconds / events:0} us per deed");
            (await RecordVerifier.VerifyAsync(data, null, default)).Fault.ShouldBeNull();
        }
    }
}
