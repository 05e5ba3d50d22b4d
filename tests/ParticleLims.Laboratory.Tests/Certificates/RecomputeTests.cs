using System.ComponentModel;
using System.Diagnostics;
using System.Globalization;
using System.Text.RegularExpressions;
using ParticleLims.Laboratory.Certificates;

namespace ParticleLims.Laboratory.Tests.Certificates;

/// <summary>
/// A customer computes a certificate again from its twin by the scripts in the documentation. Where an interpreter is not installed, the masses in the twin are
/// held against the certified percentages here, which needs none.
/// </summary>
public sealed partial class RecomputeTests
{
    private const double Tolerance = 1e-6;

    [GeneratedRegex(@"^passing (?<x>\S+) um: (?<q>\S+) %$", RegexOptions.Multiline, matchTimeoutMilliseconds: 1_000)]
    private static partial Regex Passing { get; }

    [GeneratedRegex(@"^\w+ \S*: (?<value>\S+) (?<place>inside|outside); certified (?<verdict>\w+)$", RegexOptions.Multiline, matchTimeoutMilliseconds: 1_000)]
    private static partial Regex Judged { get; }

    [Theory]
    [InlineData("Calcite")]
    [InlineData("Starch")]
    [InlineData("Spice")]
    [InlineData("Several")]
    public async Task Both_scripts_find_the_certified_numbers(string product)
    {
        await using var laboratory = await OpenedSmallLaboratory.OpenAsync(DatabaseKind.Sqlite);
        var twin = await TwinAsync(laboratory.Small, product);
        var measured = CertificateIssue.ReadContent(twin).Items.Select(item => item.Measurements!).ToList();
        measured.ForEach(ByHand);
        var folder = Directory.CreateTempSubdirectory("particlelims-recompute-");
        try
        {
            var file = Path.Combine(folder.FullName, "twin.json");
            await File.WriteAllTextAsync(file, twin);
            foreach (var said in new[] { Ask("python3", Script("recompute.py"), file), Ask("Rscript", Script("recompute.R"), file) }.OfType<string>())
            {
                var parts = said.ReplaceLineEndings("\n").Split("lot ", StringSplitOptions.RemoveEmptyEntries);
                parts.Length.ShouldBe(measured.Count, said);
                foreach (var (numbers, words) in measured.Zip(parts))
                {
                    Compare(numbers, words);
                }
            }
        }
        finally
        {
            folder.Delete(recursive: true);
        }
    }

    private static string Script(string name) => Path.Combine(AppContext.BaseDirectory, "recompute", name);

    private static async Task<string> TwinAsync(SmallLaboratory small, string product)
    {
        var (method, powder) = product switch { "Calcite" => (small.Calcite, Powder.Calcite), "Starch" => (small.Starch, Powder.Starch), _ => (small.Spice, Powder.Spice) };
        var lot = await (await small.BookInAsync(method)).ReleaseAsync(powder);
        var other = product == "Several" ? await (await small.BookInAsync(small.Calcite)).ReleaseAsync(Powder.Calcite) : null;
        Guid[] samples = other is null ? [lot.Sample.Id] : [lot.Sample.Id, other.Sample.Id];
        var id = await small.Get<CertificateIssue>().IssueSeveralAsync(small.People.QualityManager.Actor, samples, null, default);
        return (await small.Get<CertificateShelf>().TwinAsync(small.People.QualityManager.Actor, id, default))!.Json;
    }

    private static void ByHand(Measurements measured)
    {
        foreach (var run in measured.Runs)
        {
            for (var cut = 0; cut < run.Cuts.Count; cut++)
            {
                var above = measured.Procedure == "nestedStack" ? run.Cuts.Skip(cut).Sum(one => one.ResidueMicrograms!.Value) : run.Cuts[cut].ResidueMicrograms!.Value;
                (100 - (100.0 * above / run.Cuts[cut].WholeMicrograms!.Value)).ShouldBe(run.Cuts[cut].PassingPercent, Tolerance);
            }
        }
    }

    private static void Compare(Measurements measured, string said)
    {
        var passing = Passing.Matches(said);
        passing.Count.ShouldBe(measured.Runs[0].Cuts.Count, said);
        for (var cut = 0; cut < passing.Count; cut++)
        {
            Number(passing[cut].Groups["q"]).ShouldBe(measured.Runs.Average(run => run.Cuts[cut].PassingPercent), Tolerance);
        }

        var judged = Judged.Matches(said);
        judged.Count.ShouldBe(measured.Limits.Count, said);
        foreach (var (limit, line) in measured.Limits.Zip(judged))
        {
            Number(line.Groups["value"]).ShouldBe(limit.Value!.Value, Tolerance);
            line.Groups["verdict"].Value.ShouldBe(limit.Verdict);
            line.Groups["place"].Value.ShouldBe(limit.Verdict == "conforms" ? "inside" : "outside");
        }
    }

    private static double Number(Group digits) => double.Parse(digits.ValueSpan, CultureInfo.InvariantCulture);

    /// <summary>What an interpreter says; null where it, or what the script needs beside it, is not installed.</summary>
    private static string? Ask(string interpreter, string script, string file)
    {
        try
        {
            using var process = Process.Start(new ProcessStartInfo(interpreter, [script, file]) { RedirectStandardOutput = true, RedirectStandardError = true, UseShellExecute = false })!;
            var faults = process.StandardError.ReadToEndAsync();
            var said = process.StandardOutput.ReadToEnd();
            process.WaitForExit();
            var fault = faults.GetAwaiter().GetResult();
            return fault.Contains("jsonlite", StringComparison.Ordinal) ? null : process.ExitCode == 0 ? said : throw new InvalidOperationException($"{interpreter} {Path.GetFileName(script)}: {fault}");
        }
        catch (Win32Exception)
        {
            return null;
        }
    }
}
