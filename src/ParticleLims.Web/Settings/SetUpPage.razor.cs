using System.Globalization;
using Microsoft.AspNetCore.Components;
using ParticleLims.Laboratory.People;
using ParticleLims.Laboratory.Record;
using ParticleLims.Laboratory.Settings;
using ParticleLims.Web.Shell;

namespace ParticleLims.Web.Settings;

/// <summary>Sets up an empty laboratory by the one-time link that the program printed.</summary>
public sealed partial class SetUpPage
{
    private static readonly string PasswordHint = string.Create(CultureInfo.InvariantCulture, $"At least {PasswordRules.Shortest} characters: several unrelated words in a row.");
    private string? refused;
    private bool linkIsGood;

    [SupplyParameterFromForm]
    private SetUpForm? Form { get; set; }

    [SupplyParameterFromQuery(Name = "link")]
    private string? Link { get; set; }

    [CascadingParameter]
    private HttpContext Context { get; set; } = null!;

    [Inject]
    private LaboratorySetUp SetUp { get; set; } = null!;

    [Inject]
    private NavigationManager Navigation { get; set; } = null!;

    /// <inheritdoc />
    protected override async Task OnInitializedAsync()
    {
        Form ??= new SetUpForm { Link = Link, TimeZone = TimeZoneInfo.Local.Id, PublicAddress = $"{Context.Request.Scheme}://{Context.Request.Host}" };
        linkIsGood = await SetUp.IsLinkGoodAsync(Form.Link ?? string.Empty, Context.RequestAborted);
        refused = linkIsGood ? null
            : await SetUp.IsDoneAsync(Context.RequestAborted) ? "This laboratory is set up already. Sign on instead."
            : "This set-up link was used already or has expired. Start the program again: it prints a new one.";
    }

    private async Task SetUpAsync()
    {
        if (!linkIsGood)
        {
            return;
        }

        try
        {
            await SetUp.OpenAsync(Form!.Link ?? string.Empty, Form.Identity(), Form.Administrator(), TerminalCookie.MarkOf(Context), Context.RequestAborted);
            Navigation.NavigateTo("/sign-on");
        }
        catch (RefusedException refusal)
        {
            refused = refusal.Message;
        }
    }
}
