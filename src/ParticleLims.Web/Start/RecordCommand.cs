using System.Data.Common;
using System.Globalization;
using ParticleLims.CertificatePdf.Sealing;
using ParticleLims.Laboratory.Heads;
using ParticleLims.Laboratory.Record;

namespace ParticleLims.Web.Start;

/// <summary>Checks the whole record at the console: its chain, a head that was kept outside, and every row of every table against it. Writes nothing; the program may run meanwhile.</summary>
internal static class RecordCommand
{
    private const string HeadWords = "A head is a file that left the machine, or the number of an event and its hash: --head FILE, or --head 4711:0123… with 64 hexadecimal digits.";

    /// <summary>The command that the words ask for; null when they ask for something else.</summary>
    public static Func<TextWriter, Task<int>>? Read(string[] arguments)
    {
        if (arguments is not ["verify-record", .. var rest])
        {
            return null;
        }

        return output => RunAsync(output, rest);
    }

    /// <summary>0: everything holds. 1: something was changed past the record. 2: it cannot be told.</summary>
    private static async Task<int> RunAsync(TextWriter output, string[] rest)
    {
        try
        {
            var (options, given) = Options(rest);
            var head = given is null ? null : await HeadAsync(output, given, options);
            return await VerifyAsync(output, options, head);
        }
        catch (Exception fault) when (fault is StartRefusedException or RefusedException or DbException or InvalidOperationException { InnerException: DbException })
        {
            await output.WriteLineAsync($"This cannot be told: {fault.Message}");
            return 2;
        }
    }

    private static async Task<int> VerifyAsync(TextWriter output, StartOptions options, (long Sequence, string Hash)? head)
    {
        await using var provider = new ServiceCollection().AddSingleton(TimeProvider.System).AddStored(options).BuildServiceProvider();
        var found = await ActivatorUtilities.CreateInstance<RecordInspection>(provider).InspectAsync(head, CancellationToken.None);
        await SayAsync(output, found, head is not null);
        return found is { Rows.Faults.Count: 0 } ? 0 : 1;
    }

    private static async Task SayAsync(TextWriter output, RecordInspected found, bool headGiven)
    {
        await output.WriteLineAsync(string.Create(CultureInfo.InvariantCulture, $"events   {found.Chain.Events}, the last one's hash {found.Chain.HeadHash}"));
        if (found.Rows is not { } rows)
        {
            await output.WriteLineAsync($"CHANGED  {found.Chain.Fault}");
            await output.WriteLineAsync("The tables were not compared: a record that does not hold tells nothing about them.");
            return;
        }

        await output.WriteLineAsync(headGiven
            ? "chain    holds, and so does the head that was kept outside."
            : "chain    holds. Whether its end was cut off or all of it rewritten, only a head kept outside can tell: give one with --head.");
        await output.WriteLineAsync(string.Create(CultureInfo.InvariantCulture, $"tables   {rows.Rows} rows, {rows.Values} values compared; of {rows.Unvouched} the record says nothing"));
        foreach (var fault in rows.Faults)
        {
            await output.WriteLineAsync($"CHANGED  {fault}");
        }

        await output.WriteLineAsync(rows.Faults.Count == 0 ? "Everything is as the record says." : "Something was changed past the record. Keep the database as it is and call the quality manager.");
    }

    private static (StartOptions Options, string? Head) Options(string[] rest)
    {
        var at = Array.IndexOf(rest, "--head");
        return at < 0 ? (StartOptions.Read(rest, Environment.GetEnvironmentVariable), null)
            : rest.ElementAtOrDefault(at + 1) is { } head ? (StartOptions.Read([.. rest[..at], .. rest[(at + 2)..]], Environment.GetEnvironmentVariable), head)
            : throw new StartRefusedException(HeadWords);
    }

    /// <summary>The head that was given, as a file that left the machine or in so many letters.</summary>
    private static async Task<(long Sequence, string Hash)?> HeadAsync(TextWriter output, string given, StartOptions options)
    {
        if (File.Exists(given))
        {
            var read = HeadText.Read(await File.ReadAllTextAsync(given)) ?? throw new StartRefusedException($"{given} is no head of a record.");
            await output.WriteLineAsync($"head     {SignatureWords(read, options.SealFolder)}");
            return (read.Sequence, read.Hash.ToLowerInvariant());
        }

        return given.Split(':') is [var sequence, { Length: 64 } hash] && long.TryParse(sequence, NumberStyles.None, CultureInfo.InvariantCulture, out var number)
            ? (number, hash.ToLowerInvariant())
            : throw new StartRefusedException(HeadWords);
    }

    // The key lies on the machine that is checked: what counts is that the file was kept elsewhere.
    private static string SignatureWords(HeadRead read, string sealFolder)
    {
        var keys = SealKeys.CertificatesIn(sealFolder);
        return read.Signature is not { } signature ? "has no signature"
            : keys.Count == 0 ? "its signature cannot be told: no key of the laboratory lies here"
            : keys.FirstOrDefault(key => SealKey.IsOver(read.SignedText, signature, key)) is { } by ? $"signed by the laboratory's key {SealKey.FingerprintOf(by)}"
            : throw new StartRefusedException("the signature of this head is of no key of this laboratory, or the file was changed. Take the head from another copy.");
    }
}
