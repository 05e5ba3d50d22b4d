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
            { Kind: RunStepKind.Sieve, Position: 0 } => "Sieve the whole stack",
            { Kind: RunStepKind.Sieve } => $"Sieve on the {sieve} sieve",
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
        return step.Kind == RunStepKind.Sieve ? "sieve" : step.Weighing switch
        {
            WeighingKind.Empty => "empty",
            WeighingKind.Loaded => "with powder",
            WeighingKind.After => "with residue",
            _ => step.Weighing!.Value.Words(),
        };
    }

    /// <summary>A name for programs: <c>Empty-1</c>, <c>Sieve-2</c>.</summary>
    public static string Handle(RunStep? step) => step is null ? "done" : $"{step.Weighing?.ToString() ?? "Sieve"}-{step.Position.ToString(System.Globalization.CultureInfo.InvariantCulture)}";

    /// <summary>The aperture of a sieve with its designation in ASTM E11, where it has one: <c>63 µm, E11 No. 230</c>.</summary>
    public static string Designation(RunSieve sieve)
    {
        ArgumentNullException.ThrowIfNull(sieve);
        return SieveSeries.Find(sieve.Aperture)?.E11Number is { } number ? $"{Say.Micrometres(sieve.Aperture)}, E11 No. {number}" : Say.Micrometres(sieve.Aperture);
    }

    private static bool IsCarried(RunView view, int position) => view.Method.Procedure == SievingProcedure.CarriedResidue && position > 1;

    private static string Sieve(RunView view, int position) => view.Run.Sieves.Find(sieve => sieve.Position == position) is { } sieve ? Say.Micrometres(sieve.Aperture) : string.Empty;
}
