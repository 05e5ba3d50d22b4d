using Microsoft.AspNetCore.Components;
using Microsoft.AspNetCore.Components.Rendering;

namespace ParticleLims.Web.Shell;

/// <summary>Keeps a fault on one page from ending the whole screen: says so with a number under which the log has it.</summary>
public sealed class ScreenGuard : ErrorBoundaryBase
{
    private string reference = string.Empty;

    [Inject] private ILogger<ScreenGuard> Log { get; set; } = null!;

    [Inject] private NavigationManager Navigation { get; set; } = null!;

    /// <inheritdoc />
    protected override Task OnErrorAsync(Exception exception)
    {
        reference = FaultReference.Next();
        FaultLog.Fault(Log, reference, "/" + Navigation.ToBaseRelativePath(Navigation.Uri).Split('?')[0], exception);
        return Task.CompletedTask;
    }

    /// <inheritdoc />
    protected override void BuildRenderTree(RenderTreeBuilder builder)
    {
        ArgumentNullException.ThrowIfNull(builder);
        if (CurrentException is null)
        {
            builder.AddContent(0, ChildContent);
            return;
        }

        builder.OpenComponent<FaultWords>(1);
        builder.AddComponentParameter(2, nameof(FaultWords.Reference), reference);
        builder.CloseComponent();
    }
}
