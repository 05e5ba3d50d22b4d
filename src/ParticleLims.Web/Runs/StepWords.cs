using ParticleLims.Analysis.Sieves;
using ParticleLims.Laboratory.Methods;
using ParticleLims.Laboratory.Runs;
using ParticleLims.Web.Controls;

namespace ParticleLims.Web.Runs;

/// <summary>Steps of a run as the bench says them.</summary>
public static class StepWords
{
    /// <summary>What to do, as one sentence in large type.</summary>
    public static string Ask(RunView view, RunStep step)
    {
        ArgumentNullException.ThrowIfNull(view);
        ArgumentNullException.ThrowIfNull(step);
        var sieve = Sieve(view, step.Position);
        var portion = $"{Say.Grams(view.Method.PortionLeast, 1)} to {Say.Grams(view.Method.PortionMost, 1)}";
        return step switch
        {
            { Kind: RunStepKind.Prepare } => Preparation(step.Preparation!.Value, view.Method.Preparation),
            { Kind: RunStepKind.Sieve, Round: > 0, Position: 0 } => $"Sieve the whole stack on, further interval {step.Round} of at most {view.Method.EndPoint!.MostIntervals}",
            { Kind: RunStepKind.Sieve, Round: > 0 } => $"Sieve on, on the {sieve} sieve, further interval {step.Round} of at most {view.Method.EndPoint!.MostIntervals}",
            { Kind: RunStepKind.Sieve, Position: 0 } => "Sieve the whole stack",
            { Kind: RunStepKind.Sieve } => $"Sieve on the {sieve} sieve",
            { Weighing: WeighingKind.CollectorEmpty } => "Put the clean, empty collector on the pan",
            { Weighing: WeighingKind.CollectorAfter } => "Put the collector with the fines of all sieves on the pan",
            { Weighing: WeighingKind.Empty } => $"Put the clean, empty {sieve} sieve on the pan",
            { Weighing: WeighingKind.Loaded } when IsCarried(view, step.Position) => $"Brush the residue from the {Sieve(view, step.Position - 1)} sieve onto the {sieve} sieve and put it on the pan",
            { Weighing: WeighingKind.Loaded } => $"Put {portion} of powder on the {sieve} sieve and set it on the pan",
            { Weighing: WeighingKind.After } => $"Put the {sieve} sieve with its residue on the pan",
            { Weighing: WeighingKind.ContainerEmpty } => "Put the empty container for the test portion on the pan",
            { Weighing: WeighingKind.ContainerLoaded } => $"Put {portion} of powder in the container and set it on the pan",
            { Weighing: WeighingKind.ReceiverEmpty } => "Put the clean, empty receiver on the pan",
            { Weighing: WeighingKind.ReceiverAfter } => "Put the receiver with the fines on the pan",
            _ => throw new ArgumentOutOfRangeException(nameof(step), step, "Not a step."),
        };
    }

    /// <summary>The step in few words, for the plan.</summary>
    public static string Name(RunStep step)
    {
        ArgumentNullException.ThrowIfNull(step);
        return step switch
        {
            { Preparation: { } preparation } => preparation.Words(),
            { Kind: RunStepKind.Sieve, Round: > 0 } => $"sieve on ({step.Round})",
            { Kind: RunStepKind.Sieve } => "sieve",
            { Weighing: WeighingKind.Empty } => "empty",
            { Weighing: WeighingKind.Loaded } => "with powder",
            { Weighing: WeighingKind.After, Round: > 0 } => $"with residue ({step.Round})",
            { Weighing: WeighingKind.After } => "with residue",
            _ => step.Weighing!.Value.Words(),
        };
    }

    private static string Preparation(PreparationKind kind, PreparationPlan plan) => kind switch
    {
        PreparationKind.RoomConditions => "Read the conditions of the room",
        PreparationKind.Drying => string.Create(System.Globalization.CultureInfo.InvariantCulture, $"Dry the powder for {plan.DryingMinutes} min at {plan.DryingTemperature}"),
        PreparationKind.Conditioning => string.Create(System.Globalization.CultureInfo.InvariantCulture, $"Let the powder lie open in the room for {plan.ConditioningMinutes} min"),
        PreparationKind.FlowAid => string.Create(System.Globalization.CultureInfo.InvariantCulture, $"Mix {plan.FlowAidPercent:0.######} % of {plan.FlowAid} into the powder"),
        _ => throw new ArgumentOutOfRangeException(nameof(kind), kind, "Not a preparation."),
    };

    /// <summary>A name for programs: <c>Empty-1</c>, <c>Sieve-2</c>; <c>Sieve-2-1</c> in the first further interval; <c>Drying-0</c>.</summary>
    public static string Handle(RunStep? step) => step is null
        ? "done"
        : string.Create(System.Globalization.CultureInfo.InvariantCulture, $"{step.Weighing?.ToString() ?? step.Preparation?.ToString() ?? "Sieve"}-{step.Position}{(step.Round > 0 ? "-" : null)}{(step.Round > 0 ? step.Round : null)}");

    /// <summary>The aperture of a sieve with its designation in ASTM E11, where it has one: <c>63 µm, E11 No. 230</c>.</summary>
    public static string Designation(RunSieve sieve)
    {
        ArgumentNullException.ThrowIfNull(sieve);
        return SieveSeries.Find(sieve.Aperture)?.E11Number is { } number ? $"{Say.Micrometres(sieve.Aperture)}, E11 No. {number}" : Say.Micrometres(sieve.Aperture);
    }

    private static bool IsCarried(RunView view, int position) => view.Method.Procedure == SievingProcedure.CarriedResidue && position > 1;

    private static string Sieve(RunView view, int position) => view.Run.Sieves.Find(sieve => sieve.Position == position) is { } sieve ? Say.Micrometres(sieve.Aperture) : string.Empty;
}
