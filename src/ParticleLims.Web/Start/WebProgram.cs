using Serilog;

namespace ParticleLims.Web.Start;

/// <summary>The program from its command line to its end.</summary>
internal static class WebProgram
{
    /// <summary>Runs until it is told to stop; answers 0, or 1 when it could not start.</summary>
    public static async Task<int> RunAsync(string[] arguments)
    {
        try
        {
            var application = WebBuilding.Build(arguments);
            await application.Services.GetRequiredService<Opening>().OpenAsync(application, application.Lifetime.ApplicationStopping);
            await application.RunAsync();
            return 0;
        }
        catch (StartRefusedException refusal)
        {
            await Console.Error.WriteLineAsync(refusal.Message);
            return 1;
        }
        finally
        {
            await Log.CloseAndFlushAsync();
        }
    }
}

/// <summary>The program does not start, and says why in words.</summary>
public sealed class StartRefusedException(string message) : Exception(message);
