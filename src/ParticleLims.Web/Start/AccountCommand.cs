using System.Data.Common;
using System.Globalization;
using ParticleLims.Laboratory;
using ParticleLims.Laboratory.People;
using ParticleLims.Laboratory.Record;

namespace ParticleLims.Web.Start;

/// <summary>Issues an activation code at the console: the way back when the last administrator has lost the password. It stands in the audit trail like every other.</summary>
internal static class AccountCommand
{
    /// <summary>The command that the words ask for; null when they ask for something else.</summary>
    public static Func<TextWriter, Task<int>>? Read(string[] arguments) => arguments is ["activate", .. var rest] ? output => RunAsync(output, rest) : null;

    /// <summary>0: the code was printed. 2: it could not be issued.</summary>
    private static async Task<int> RunAsync(TextWriter output, string[] rest)
    {
        if (rest is not [var name, .. var options] || name.StartsWith('-'))
        {
            await output.WriteLineAsync(StartOptions.Help);
            return 2;
        }

        try
        {
            await using var services = new ServiceCollection().AddStored(StartOptions.Read(options, Environment.GetEnvironmentVariable)).AddLaboratory().BuildServiceProvider();
            var issued = await services.GetRequiredService<Activations>().IssueAtConsoleAsync(name, CancellationToken.None);
            await output.WriteLineAsync(string.Create(CultureInfo.InvariantCulture, $"{issued.SignOnName}   {string.Join(' ', issued.Code.Chunk(5).Select(part => new string(part)))}   good until {issued.ExpiresAt:yyyy-MM-dd HH:mm} UTC"));
            await output.WriteLineAsync("The old password works no more. Open /activate and set a new one; until somebody else confirms under Access review who did it, the account signs nothing.");
            return 0;
        }
        catch (Exception fault) when (fault is StartRefusedException or RefusedException or DbException or InvalidOperationException { InnerException: DbException })
        {
            await output.WriteLineAsync($"No code was issued: {fault.Message}");
            return 2;
        }
    }
}
