using ParticleLims.Laboratory.Equipment;

namespace ParticleLims.Web.Equipment;

/// <summary>A maker's plate as it stands in a form.</summary>
public sealed class PlateSheet
{
    /// <summary>Who made it.</summary>
    public string Maker { get; set; } = string.Empty;

    /// <summary>The maker's model or type.</summary>
    public string Model { get; set; } = string.Empty;

    /// <summary>The version of its software or firmware.</summary>
    public string Software { get; set; } = string.Empty;

    /// <summary>An item's plate as the form begins with it.</summary>
    public static PlateSheet Of(IEquipment item)
    {
        var plate = TypePlate.Of(item);
        return new PlateSheet { Maker = plate.Maker ?? string.Empty, Model = plate.Model ?? string.Empty, Software = plate.Software ?? string.Empty };
    }

    /// <summary>What is handed to the laboratory.</summary>
    public TypePlate Read() => new TypePlate(Maker, Model, Software).Trimmed();
}
