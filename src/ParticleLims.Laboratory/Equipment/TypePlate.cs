using ParticleLims.Laboratory.Record;

namespace ParticleLims.Laboratory.Equipment;

/// <summary>Equipment with a program inside, whose version tells how it behaves.</summary>
public interface IRunsSoftware
{
    /// <summary>The version of its software or firmware; null where nobody wrote it down.</summary>
    string? Software { get; set; }
}

/// <summary>What a maker's plate says of an item (ISO/IEC 17025:2017, 6.4.13, from memory); null where it says nothing.</summary>
/// <param name="Maker">Who made it.</param>
/// <param name="Model">The maker's model or type.</param>
/// <param name="Software">The version of its software or firmware; only what has a program inside has one.</param>
public sealed record TypePlate(string? Maker, string? Model, string? Software = null)
{
    /// <summary>The most characters of each.</summary>
    public const int Longest = 120;

    /// <summary>Nothing written down.</summary>
    public static TypePlate Blank { get; } = new(null, null);

    /// <summary>The plate of an item.</summary>
    public static TypePlate Of(IEquipment item)
    {
        ArgumentNullException.ThrowIfNull(item);
        return new(item.Maker, item.Model, (item as IRunsSoftware)?.Software);
    }

    /// <summary>In a sentence: "maker Tarnfell Works, model A 12, software 2.1".</summary>
    public string Words
    {
        get
        {
            string?[] parts = [Maker is null ? null : $"maker {Maker}", Model is null ? null : $"model {Model}", Software is null ? null : $"software {Software}"];
            return string.Join(", ", parts.OfType<string>()) is { Length: > 0 } said ? said : "nothing written down";
        }
    }

    /// <summary>The same with blanks taken away, and nothing where only blanks stood.</summary>
    public TypePlate Trimmed() => new(Maker.OrNothing(), Model.OrNothing(), Software.OrNothing());

    /// <summary>A note of an item's history with what is written down of its plate.</summary>
    internal string Beside(string note) => Trimmed() == Blank ? note : $"{note.Trim().TrimEnd('.')}; {Trimmed().Words}";

    /// <summary>Refuses what is too long, and a software version of what has no program inside.</summary>
    /// <exception cref="RefusedException">Says which.</exception>
    internal void Check(bool runsSoftware)
    {
        foreach (var (member, said, words) in ((string, string?, string)[])[("maker", Maker, "maker"), ("model", Model, "model"), ("software", Software, "software version")])
        {
            if (said.OrNothing()?.Length > Longest)
            {
                throw new RefusedException("plate-long", $"The {words} has at most {Longest} characters.", member);
            }
        }

        if (!runsSoftware && Software.OrNothing() is not null)
        {
            throw new RefusedException("plate-software", "Only a balance and a sieving unit have a software version.", "software");
        }
    }

    /// <summary>Writes it on an item.</summary>
    internal void PutOn(IEquipment item)
    {
        Check(item is IRunsSoftware);
        (item.Maker, item.Model) = (Trimmed().Maker, Trimmed().Model);
        if (item is IRunsSoftware running)
        {
            running.Software = Trimmed().Software;
        }
    }
}
