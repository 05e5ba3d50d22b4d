using System.ComponentModel;
using System.Diagnostics;

namespace ParticleLims.TestLaboratory.Databases;

/// <summary>A program run to its end, with what it said.</summary>
internal sealed record Command(string Program, string[] Arguments)
{
    public static bool Succeeds(string program, params string[] arguments)
    {
        try
        {
            return new Command(program, arguments).Run().Status == 0;
        }
        catch (Win32Exception)
        {
            return false; // there is no such program
        }
    }

    public (int Status, string Output) Run(params (string Name, string Value)[] environment)
    {
        var start = new ProcessStartInfo(Program, Arguments)
        {
            UseShellExecute = false,
            RedirectStandardInput = true,
            RedirectStandardOutput = true,
            RedirectStandardError = true,
            WorkingDirectory = "/", // ours may be closed to the server's account
        };
        foreach (var (name, value) in environment)
        {
            start.Environment[name] = value;
        }

        using var process = Process.Start(start)!;
        process.StandardInput.Close();
        var errors = process.StandardError.ReadToEndAsync();
        var output = process.StandardOutput.ReadToEnd();
        process.WaitForExit();
        return (process.ExitCode, (output + errors.GetAwaiter().GetResult()).Trim());
    }
}
