using System.Globalization;
using Microsoft.AspNetCore.Components;
using ParticleLims.Laboratory.Cautions;
using ParticleLims.Laboratory.Runs;

namespace ParticleLims.Web.Runs;

/// <summary>Chooses balance and sieves for a planned run, confirms the cautions to stop at, and starts it.</summary>
public sealed partial class StartRun
{
    private readonly HashSet<string> confirmed = new(StringComparer.Ordinal);
    private readonly Dictionary<int, Guid> chosen = [];
    private RunChoices? choices;
    private Guid? balanceId;
    private Guid? unitId;
    private string key = string.Empty;
    private List<Caution> toRead = [];
    private bool hasRead;
    private string? scanSaid;
    private bool scanRight;
    private string? notAuthorised;

    /// <summary>The planned run.</summary>
    [Parameter, EditorRequired] public Guid RunId { get; set; }

    /// <summary>Called when the run has started.</summary>
    [Parameter] public EventCallback Started { get; set; }

    [Inject] private RunChoosing Choosing { get; set; } = null!;

    [Inject] private RunStart Starting { get; set; } = null!;

    [Inject] private AuthorisationOverriding Authorisations { get; set; } = null!;

    [Inject] private CautionReading Cautions { get; set; } = null!;

    private IReadOnlyList<Caution> Stops =>
        choices is null ? [] : [.. CautionChoice.For(CautionMoment.Start, choices.Product.Hazards, choices.Method.Procedure).Where(caution => caution.Stop)];

    private string? Missing => choices switch
    {
        _ when notAuthorised is not null => notAuthorised,
        { Product.Hazards: null } => "No hazard data is recorded for this product: the run cannot start.",
        _ when Stops.FirstOrDefault(caution => !confirmed.Contains(caution.Code)) is { } open => $"Confirm: {open.Words}",
        _ when toRead.Count > 0 && !hasRead => "Read the cautions that are new to you, and tick that you have.",
        _ when balanceId is null => "No balance may be used now. Do its daily check, or ask the laboratory manager.",
        _ when unitId is null && choices!.Units.Count > 0 => "No sieving unit may be used now. Ask the laboratory manager.",
        _ when choices!.Places.FirstOrDefault(place => !chosen.ContainsKey(place.Position)) is { } place => $"No {place.Aperture} sieve is fit for use now.",
        _ => null,
    };

    /// <inheritdoc />
    protected override async Task LoadAsync()
    {
        key = Guid.CreateVersion7(Clock.Now).ToString("N");
        choices = await Choosing.ForAsync(Actor, RunId, Leaving);
        notAuthorised = choices is null ? null : await Authorisations.MissingAsync(Actor, RunId, Leaving);
        toRead = choices is null ? [] : await Cautions.OpenAsync(Actor, choices.Product.Hazards, choices.Method.Procedure, Leaving);
        balanceId = choices?.Balances.FirstOrDefault(choice => choice.Balance.Id == balanceId && choice.Unfit is null)?.Balance.Id
            ?? choices?.Balances.FirstOrDefault(choice => choice.Unfit is null)?.Balance.Id;
        unitId = choices?.Units.FirstOrDefault(choice => choice.Unit.Id == unitId && choice.Unfit is null)?.Unit.Id ?? choices?.Units.FirstOrDefault(choice => choice.Unfit is null)?.Unit.Id;
        foreach (var place in choices?.Places ?? [])
        {
            var kept = place.Choices.FirstOrDefault(choice => choice.Unfit is null && choice.Sieve.Id == chosen.GetValueOrDefault(place.Position)) ?? place.Suggested;
            chosen.Remove(place.Position);
            if (kept is not null)
            {
                chosen[place.Position] = kept.Sieve.Id;
            }
        }
    }

    private void Confirm(string code, bool on)
    {
        if (on)
        {
            confirmed.Add(code);
        }
        else
        {
            confirmed.Remove(code);
        }
    }

    private void Choose(int position, string? id)
    {
        if (Guid.TryParse(id, out var sieve))
        {
            chosen[position] = sieve;
        }
    }

    private void Scanned(string code)
    {
        scanRight = false;
        if (string.Equals(code, choices!.Run.SampleCode, StringComparison.OrdinalIgnoreCase))
        {
            (scanSaid, scanRight) = ($"Sample {choices.Run.SampleCode} belongs to this run.", true);
            return;
        }

        var found = choices.Places.SelectMany(place => place.Choices, (place, choice) => (place.Position, choice.Sieve, choice.Unfit)).FirstOrDefault(one => string.Equals(one.Sieve.Serial, code, StringComparison.OrdinalIgnoreCase));
        if (found.Sieve is null)
        {
            scanSaid = $"“{code}” is neither this run's sample nor a sieve with an aperture of its method.";
        }
        else if (found.Unfit is { } why)
        {
            scanSaid = why;
        }
        else
        {
            chosen[found.Position] = found.Sieve.Id;
            (scanSaid, scanRight) = ($"{found.Sieve.Label} is chosen.", true);
        }
    }

    private async Task StartAsync()
    {
        var read = string.Create(CultureInfo.InvariantCulture, $"Cautions confirmed (texts version {CautionTexts.Version}): {string.Join(", ", Stops.Select(caution => caution.Code))}");
        var sieves = choices!.Places.OrderBy(place => place.Position).Select(place => chosen[place.Position]).ToList();
        if (await DoAsync(async () =>
        {
            await AcknowledgeAsync();
            await Starting.StartAsync(Actor, RunId, new RunEquipment(balanceId!.Value, sieves, unitId), choices.Run.Version, key, read, CancellationToken.None);
        }))
        {
            await Started.InvokeAsync();
        }
        else
        {
            // What was refused may have changed meanwhile: another run took a sieve, a check failed.
            var refusal = Refusal;
            await LoadAsync();
            Refusal = refusal;
        }
    }

    private async Task AcknowledgeAsync()
    {
        if (toRead.Count > 0)
        {
            await Cautions.AcknowledgeAsync(Actor, choices!.Product.Hazards, choices.Method.Procedure, CancellationToken.None);
            toRead = [];
        }
    }
}
