using System.Data.Common;
using Microsoft.AspNetCore.Connections;
using Serilog;

namespace ParticleLims.Web.Start;

/// <summary>The program from its command line to its end.</summary>
internal static class WebProgram
{
    /// <summary>Runs until it is told to stop; answers 0, or 1 when it could not start.</summary>
    public static async Task<int> RunAsync(string[] arguments)
    {
        if (arguments is ["--help" or "-h"])
        {
            await Console.Out.WriteLineAsync(StartOptions.Help);
            return 0;
        }

        if ((SealCommands.Read(arguments) ?? RecordCommand.Read(arguments) ?? BouncesCommand.Read(arguments) ?? AccountCommand.Read(arguments)) is { } command)
        {
            return await command(Console.Out);
        }

        try
        {
            await using var application = WebBuilding.Build(arguments);
            await application.Services.GetRequiredService<Opening>().OpenAsync(application, application.Lifetime.ApplicationStopping);
            await application.RunAsync();
            return 0;
        }
        catch (Exception fault) when (Words(fault) is not null)
        {
            await Console.Error.WriteLineAsync(Words(fault));
            return 1;
        }
        finally
        {
            await Log.CloseAndFlushAsync();
        }
    }

    /// <summary>Why the program could not start, for the person at the console; null for a fault of the program's own.</summary>
    internal static string? Words(Exception fault) => fault switch
    {
        StartRefusedException => fault.Message,
        DbException => $"The database does not open: {fault.Message}",
        InvalidOperationException { InnerException: DbException inner } => $"The database does not open: {inner.Message}",
        IOException when fault.InnerException is AddressInUseException => $"{fault.Message} Choose another with --urls.",
        FormatException when fault.Message.Contains("url", StringComparison.OrdinalIgnoreCase) => $"{fault.Message} An address reads like http://127.0.0.1:5000.",
        System.Net.Sockets.SocketException => $"The address given with --urls cannot be used: {fault.Message}",
        _ => null,
    };
}

/// <summary>The program does not start, and says why in words.</summary>
public sealed class StartRefusedException(string message) : Exception(message);
