using System.Globalization;

namespace ParticleLims.Benchmarks.ColdStarts;

/// <summary>
/// From the start of the published program's process to its first answer, for a laboratory that was set up and for the demonstration, in turn with the
/// shortest start that the same program has. The files are in the system's cache: the process is cold, the disk is not.
/// </summary>
internal static class ColdStart
{
    private const int Rounds = 10;

    /// <summary>Publishes, or takes what <c>--published DIR</c> names, starts it again and again and prints the times.</summary>
    public static async Task<int> RunAsync(string[] arguments)
    {
        var folder = Directory.CreateTempSubdirectory("particlelims-cold-start-");
        try
        {
            var program = arguments switch
            {
                [] => await PublishedProgram.PublishAsync(Path.Combine(folder.FullName, "published")),
                ["--published", var published] => new PublishedProgram(published),
                _ => throw new ArgumentException("cold-start takes --published DIR or nothing.", nameof(arguments)),
            };
            await MeasureAsync(program, folder.CreateSubdirectory("laboratory").FullName, folder.CreateSubdirectory("demonstration").FullName);
            return 0;
        }
        finally
        {
            folder.Delete(recursive: true);
        }
    }

    private static async Task MeasureAsync(PublishedProgram program, string laboratory, string demonstration)
    {
        await EmptyLaboratory.SetUpAsync(laboratory);

        // The simulated balance gets a port of its own, the same each time, so that the register need not follow it.
        string[] demo = ["--demo", "--data", demonstration, "--balance-port", PublishedProgram.FreePort().ToString(CultureInfo.InvariantCulture)];
        var made = await program.StartAsync(demo);
        Console.Out.WriteLine(string.Create(CultureInfo.InvariantCulture, $"First start of the demonstration, which makes its year of history: {made.FirstAnswer.TotalSeconds:0.0} s to the first answer."));

        var shortest = new Timings("--help, process start -> end");
        var (empty, again) = (new Starts("laboratory set up"), new Starts("demonstration again"));
        for (var round = 0; round < Rounds; round++)
        {
            shortest.Add(await program.RunHelpAsync());
            empty.Add(await program.StartAsync("--data", laboratory));
            again.Add(await program.StartAsync(demo));
        }

        Console.Out.WriteLine(shortest);
        empty.Print(shortest);
        again.Print(shortest);
    }

    /// <summary>The starts of one kind.</summary>
    private sealed class Starts(string name)
    {
        private readonly Timings answered = new($"{name}, process start -> first answer");
        private readonly Timings worked = new($"{name}, processor time until then");
        private long memory;

        public void Add(MeasuredStart start)
        {
            answered.Add(start.FirstAnswer);
            worked.Add(start.Processor);
            memory = Math.Max(memory, start.WorkingSetBytes);
        }

        public void Print(Timings shortest)
        {
            Console.Out.WriteLine(answered);
            Console.Out.WriteLine(worked);
            Console.Out.WriteLine(answered.Against(shortest));
            Console.Out.WriteLine(string.Create(CultureInfo.InvariantCulture, $"{name}: at most {memory / 1_000_000} MB of memory at the first answer."));
        }
    }
}
