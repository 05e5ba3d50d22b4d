using ParticleLims.Laboratory.Methods;
using ParticleLims.Laboratory.Runs;

namespace ParticleLims.Laboratory.Demonstration.Model;

/// <summary>What lies on the pan at each step of a run: the true mass in grams, before the balance adds its noise.</summary>
/// <param name="powder">The powder of this run's test portion.</param>
/// <param name="procedure">How it meets the sieves.</param>
/// <param name="sieves">The sieves, the finest first.</param>
/// <param name="portion">The least and the most of a test portion, g.</param>
/// <param name="elapsed">The part of the history that has passed, 0 to 1.</param>
/// <param name="chance">The chance of this run.</param>
internal sealed class TestPortion(Powder powder, SievingProcedure procedure, IReadOnlyList<SieveInPlay> sieves, (double Least, double Most) portion, double elapsed, Chance chance)
{
    private const double Container = 84.612;
    private const double Receiver = 312.447;

    private readonly double[] residues = new double[sieves.Count + 1];
    private readonly double lossPart = chance.Between(0.0015, 0.0045);
    private double grams;

    // What a further interval still lets through, as a part of the residue.
    private const double StillPasses = 0.004;

    /// <summary>The grams on the pan.</summary>
    public double OnPan(WeighingKind kind, int position, int round) => kind switch
    {
        WeighingKind.ContainerEmpty => Container,
        WeighingKind.ContainerLoaded => Container + NewPortion(),
        WeighingKind.ReceiverEmpty => Receiver,
        WeighingKind.ReceiverAfter => Receiver + (grams * Finer(1) * (1 - (2 * lossPart))),
        WeighingKind.Empty => Tare(position),
        WeighingKind.Loaded => Tare(position) + Loaded(position),
        WeighingKind.After when round > 0 => Tare(position) + (residues[position] *= 1 - (StillPasses / round)),
        WeighingKind.After => Tare(position) + After(position),
        _ => throw new ArgumentOutOfRangeException(nameof(kind), kind, "Not a kind of weighing."),
    };

    private double Loaded(int position)
    {
        if (procedure == SievingProcedure.SeparatePortions || position == 1)
        {
            return residues[position] = NewPortion();
        }

        // A few milligrams stay on the finer sieve and the brush.
        return residues[position] = residues[position - 1] - chance.Between(0.003, 0.009);
    }

    private double After(int position)
    {
        if (procedure == SievingProcedure.NestedStack)
        {
            var finerThanNext = position == sieves.Count ? 1 : Finer(position + 1);
            return residues[position] = grams * (finerThanNext - Finer(position)) * (1 - (lossPart / 2));
        }

        var kept = procedure == SievingProcedure.CarriedResidue && position > 1
            ? (1 - Finer(position)) / (1 - Finer(position - 1))
            : 1 - Finer(position);
        return residues[position] *= kept;
    }

    private double NewPortion() => grams = chance.Between(portion.Least + (0.2 * (portion.Most - portion.Least)), portion.Most - (0.2 * (portion.Most - portion.Least)));

    private double Tare(int position) => sieves[position - 1].Tare(elapsed);

    private double Finer(int position) => powder.FinerThan(sieves[position - 1].Effective(elapsed));
}
