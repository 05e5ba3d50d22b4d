namespace ParticleLims.Laboratory.Demonstration.Model;

/// <summary>What becomes of a sieve in the history.</summary>
internal enum SieveFate
{
    Usual,
    /// <summary>Its mesh clogs over months, its tare creeps up, it is taken out of service.</summary>
    Blinds,
    /// <summary>Its cloth wears, its apertures widen, and a check with a reference material finds it.</summary>
    Worn,
    /// <summary>It is dented, taken out of service and scrapped.</summary>
    Dented,
    /// <summary>It arrived lately and awaits commissioning.</summary>
    New,
    /// <summary>Its inspection falls due within weeks.</summary>
    DueSoon,
    /// <summary>Its inspection is overdue.</summary>
    Overdue,
}

/// <summary>A sieve as the model knows it.</summary>
internal sealed class SieveInPlay(int aperture, int number, SieveFate fate, Chance chance)
{
    private readonly double tare = Math.Round(chance.Between(262, 318), 3);
    private readonly double wear = chance.Between(0, 0.003);

    /// <summary>Nominal, µm.</summary>
    public int Aperture { get; } = aperture;

    /// <summary>1, 2, 3 among those of one aperture.</summary>
    public int Number { get; } = number;

    /// <summary>What becomes of it.</summary>
    public SieveFate Fate { get; } = fate;

    /// <summary>The effective aperture over the nominal one.</summary>
    public double Fineness { get; } = 1 + (0.004 * chance.Normal(2));

    /// <summary>The number on its frame.</summary>
    public string Serial => string.Create(System.Globalization.CultureInfo.InvariantCulture, $"TS-{Aperture:000}-{Number}");

    /// <summary>The key once registered.</summary>
    public Guid Id { get; set; }

    /// <summary>Whether it may be taken.</summary>
    public bool InService { get; set; }

    /// <summary>The last day on which it may be used.</summary>
    public DateOnly DueOn { get; set; }

    /// <summary>The empty mass in grams: handling wears a little off the frame, and what clogs the mesh comes on top.</summary>
    /// <param name="elapsed">The part of the history that has passed, 0 to 1.</param>
    public double Tare(double elapsed) => tare - (wear * elapsed) + (Fate == SieveFate.Blinds ? 0.120 * Clogged(elapsed) : 0);

    /// <summary>The effective aperture in µm.</summary>
    public double Effective(double elapsed) => Aperture * Fineness * (Fate switch
    {
        SieveFate.Blinds => 1 - (0.012 * Clogged(elapsed)),
        SieveFate.Worn => 1 + (0.02 * Math.Clamp((elapsed - 0.3) / 0.25, 0, 1)),
        _ => 1,
    });

    private static double Clogged(double elapsed) => Math.Pow(Math.Clamp((elapsed - 0.2) / (EquipmentRoom.BlindingFoundAt - 0.2), 0, 1), 1.5);
}
