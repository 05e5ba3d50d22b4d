using System.Globalization;
using System.Net;

namespace ParticleLims.Architecture.Tests.Canaries;

// Each breaks one rule of the engine on purpose; nobody calls them.
internal static class FileCanary
{
    public static string Read(string path) => new Func<string>(() => File.ReadAllText(path))();
}

internal static class NetworkCanary
{
    public static IPAddress Read(string text) => IPAddress.Parse(text);
}

internal static class TaskCanary
{
    public static async Task<int> Wait()
    {
        await Task.Yield();
        return 1;
    }
}

internal static class ChanceCanary
{
    public static double Next() => Random.Shared.NextDouble();
}

internal static class ClockCanary
{
    public static int Year() => DateTimeOffset.UtcNow.Year;
}

internal static class MachineCanary
{
    public static string Language(double value) => value.ToString(CultureInfo.CurrentCulture);
}

internal static class PowerCanary
{
    public static double Power(double value) => Math.Pow(value, 0.75);
}

internal static class ForgetfulCanary
{
    public static int Calls { get; set; }
}

internal static class CollectingCanary
{
    private static readonly List<double> Seen = [];

    public static void See(double value) => Seen.Add(value);
}

internal static class LentArrayCanary
{
    internal static readonly double[] Coefficients = [1.0, 2.0];
}
