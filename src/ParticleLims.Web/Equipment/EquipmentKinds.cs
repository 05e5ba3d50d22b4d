using ParticleLims.Laboratory.Equipment;

namespace ParticleLims.Web.Equipment;

/// <summary>Which shape and colour a chip has: good, wait, bad or off.</summary>
internal static class EquipmentKinds
{
    public static string Kind(this EquipmentState state) => state switch
    {
        EquipmentState.InService => "good",
        EquipmentState.AwaitingCommissioning => "wait",
        EquipmentState.OutOfService => "bad",
        _ => "off",
    };

    public static string Kind(this EquipmentDue due) => due switch
    {
        EquipmentDue.Overdue => "bad",
        EquipmentDue.Soon or EquipmentDue.ToCommission => "wait",
        EquipmentDue.Later => "good",
        _ => "off",
    };
}
