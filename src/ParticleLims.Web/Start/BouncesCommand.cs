using System.Data.Common;
using System.Globalization;
using ParticleLims.Laboratory;
using ParticleLims.Laboratory.Outgoing;
using ParticleLims.Laboratory.Record;
using ParticleLims.Web.Outgoing;

namespace ParticleLims.Web.Start;

/// <summary>Takes in the mails of a folder that say that mails came back (RFC 3464). What was taken in goes into a folder beside them, what was not stays and is named. The program may run meanwhile.</summary>
internal static class BouncesCommand
{
    /// <summary>The folder for what was taken in.</summary>
    public const string Taken = "taken-in";

    /// <summary>The command that the words ask for; null when they ask for something else.</summary>
    public static Func<TextWriter, Task<int>>? Read(string[] arguments) => arguments is ["bounces", var folder, .. var rest] && !folder.StartsWith("--", StringComparison.Ordinal) ? output => RunAsync(output, folder, rest)
        : arguments is ["bounces", ..] ? async output =>
        {
            await output.WriteLineAsync("Say which folder: bounces FOLDER. In it lie the mails that say that mails came back, as files *.eml.");
            return 2;
        }
        : null;

    /// <summary>0: nothing is left in the folder. 1: something was not taken in. 2: nothing can be taken in.</summary>
    private static async Task<int> RunAsync(TextWriter output, string folder, string[] rest)
    {
        try
        {
            var options = StartOptions.Read(rest, Environment.GetEnvironmentVariable);
            var files = Directory.Exists(folder) ? Directory.GetFiles(folder, "*.eml").Order(StringComparer.Ordinal).ToList() : throw new StartRefusedException($"There is no folder {folder}.");
            await using var provider = new ServiceCollection().AddStored(options).AddLaboratory().BuildServiceProvider();
            var left = 0;
            foreach (var file in files)
            {
                left += await TakeAsync(output, provider.GetRequiredService<OutgoingSending>(), file) ? 0 : 1;
            }

            await output.WriteLineAsync(string.Create(CultureInfo.InvariantCulture, $"{files.Count - left} taken in, {left} left."));
            return left == 0 ? 0 : 1;
        }
        catch (Exception fault) when (fault is StartRefusedException or DatabaseTroubledException or DbException or IOException or UnauthorizedAccessException or InvalidOperationException { InnerException: DbException })
        {
            await output.WriteLineAsync($"Nothing more can be taken in: {fault.Message}");
            return 2;
        }
    }

    private static async Task<bool> TakeAsync(TextWriter output, OutgoingSending sending, string file)
    {
        var name = Path.GetFileName(file);
        try
        {
            DeliveryStatus status;
            await using (var stream = File.OpenRead(file))
            {
                status = await DeliveryStatus.ReadAsync(stream, CancellationToken.None);
            }

            await sending.BouncedAsync(status.MessageId, status.Words, CancellationToken.None);
            await output.WriteLineAsync($"taken in  {name}: {OneLine(status.Words)}");
        }
        catch (RefusedException refused) when (refused.Code == "message-refused")
        {
            await output.WriteLineAsync($"known     {name}: {refused.Message}");
        }
        catch (Exception fault) when (fault is NotADeliveryStatusException or RefusedException)
        {
            await output.WriteLineAsync($"left      {name}: {fault.Message}");
            return false;
        }

        // Only after the database has it; a killed command finds the file again, and then it is known.
        var taken = Directory.CreateDirectory(Path.Combine(Path.GetDirectoryName(Path.GetFullPath(file))!, Taken));
        File.Move(file, Path.Combine(taken.FullName, name), overwrite: true);
        return true;
    }

    // What a server wrote may hold anything, also what steers a console.
    private static string OneLine(string words) => string.Concat(words.Select(letter => char.IsControl(letter) ? ' ' : letter));
}
