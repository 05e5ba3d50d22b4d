using System.Collections.Concurrent;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Hosting;
using Microsoft.Extensions.Logging;

namespace ParticleLims.Web.Tests.Outgoing;

/// <summary>What another program was posted.</summary>
/// <param name="Headers">Its headers.</param>
/// <param name="Body">Its body.</param>
internal sealed record Posted(IReadOnlyDictionary<string, string> Headers, byte[] Body);

/// <summary>Another program that takes posts on the loopback address.</summary>
internal sealed class Watch : IAsyncDisposable
{
    private readonly WebApplication program;

    private Watch(WebApplication application) => program = application;

    /// <summary>Where it takes them.</summary>
    public string Address => program.Urls.First() + "/news";

    /// <summary>What it was posted.</summary>
    public ConcurrentQueue<Posted> All { get; } = [];

    /// <summary>What it answers.</summary>
    public int Answers { get; set; } = StatusCodes.Status204NoContent;

    /// <summary>How long it thinks before.</summary>
    public TimeSpan Thinks { get; set; }

    /// <summary>Starts it.</summary>
    public static async Task<Watch> StartAsync()
    {
        var builder = WebApplication.CreateSlimBuilder();
        builder.Logging.ClearProviders();
        builder.WebHost.UseUrls("http://127.0.0.1:0");
        var watch = new Watch(builder.Build());
        watch.program.MapPost("/news", watch.TakeAsync);
        watch.program.MapPost("/elsewhere", watch.TakeAsync);
        await watch.program.StartAsync();
        return watch;
    }

    public async ValueTask DisposeAsync() => await program.DisposeAsync();

    private async Task TakeAsync(HttpContext context)
    {
        using var body = new MemoryStream();
        await context.Request.Body.CopyToAsync(body);
        All.Enqueue(new Posted(context.Request.Headers.ToDictionary(header => header.Key, header => header.Value.ToString(), StringComparer.OrdinalIgnoreCase), body.ToArray()));
        await Task.Delay(Thinks, context.RequestAborted);
        context.Response.StatusCode = Answers;
        if (Answers == StatusCodes.Status307TemporaryRedirect)
        {
            context.Response.Headers.Location = "/elsewhere";
        }
    }
}
