using ParticleLims.Laboratory.Record;

namespace ParticleLims.Laboratory.People;

/// <summary>What a person is in the laboratory; one person may hold several.</summary>
public enum Role
{
    /// <summary>Books in and carries out runs at the bench.</summary>
    Technician,
    /// <summary>A senior technician who looks at other people's runs.</summary>
    Reviewer,
    /// <summary>Decides on lots and issues certificates.</summary>
    QualityManager,
    /// <summary>Keeps equipment, methods and products.</summary>
    LaboratoryManager,
    /// <summary>Keeps people, terminals and settings; by itself no data entry, review or release.</summary>
    Administrator,
    /// <summary>Sees its own certificates.</summary>
    Customer,
}

/// <summary>Which role holds which permission: the one table.</summary>
public static class RolePermissions
{
    private static readonly Permission[] Signing = [Permission.ReviewRuns, Permission.DecideLots, Permission.ApproveDocuments, Permission.ConcludeInvestigations, Permission.KeepSettings];
    private static readonly Permission[] Staff = [Permission.SeeLaboratory, Permission.SeeCertificates, Permission.StopEquipment, Permission.Evaluate, Permission.SeeAuthorisations];

    /// <summary>The permissions of each role.</summary>
    public static IReadOnlyDictionary<Role, IReadOnlySet<Permission>> All { get; } = new Dictionary<Role, IReadOnlySet<Permission>>
    {
        [Role.Technician] = Set([.. Staff, Permission.BookIn, Permission.CarryOutRuns, Permission.CheckBalances, Permission.InspectSieves, Permission.CheckSievingUnits]),
        [Role.Reviewer] = Set([.. Staff, Permission.BookIn, Permission.CarryOutRuns, Permission.CheckBalances, Permission.InspectSieves, Permission.CheckSievingUnits, Permission.ReviewRuns, Permission.Investigate, Permission.WriteDocuments, Permission.ReadRecord]),
        [Role.QualityManager] = Set([.. Staff, Permission.DecideLots, Permission.IssueCertificates, Permission.ApproveDocuments, Permission.WriteDocuments, Permission.Investigate, Permission.ConcludeInvestigations, Permission.SeeAccess, Permission.ReviewAccess, Permission.ReadRecord]),
        [Role.LaboratoryManager] = Set([.. Staff, Permission.BookIn, Permission.KeepProducts, Permission.WriteDocuments, Permission.ApproveDocuments, Permission.AuthorisePeople, Permission.KeepEquipment, Permission.KeepReadingFormats, Permission.CheckBalances, Permission.InspectSieves, Permission.CheckSievingUnits, Permission.ProposeConcession, Permission.Investigate, Permission.ReadRecord]),
        [Role.Administrator] = Set([Permission.KeepPeople, Permission.KeepTerminals, Permission.KeepSettings, Permission.KeepReadingFormats, Permission.SeeAccess, Permission.ReadRecord, Permission.SeeAuthorisations]),
        [Role.Customer] = Set([Permission.SeeCertificates]),
    };

    /// <summary>What a person who signed on with a PIN may do of what the roles allow: the work at the bench, and what asks for the password again.</summary>
    public static IReadOnlySet<Permission> AfterPin { get; } = Set(
    [
        .. Staff, Permission.BookIn, Permission.CarryOutRuns, Permission.CheckBalances, Permission.InspectSieves, Permission.CheckSievingUnits, Permission.ReviewRuns, Permission.DecideLots, Permission.ApproveDocuments, Permission.Investigate,
        Permission.ConcludeInvestigations, Permission.ReadRecord,
    ]);

    /// <summary>What is withheld from a session without a second factor, where the laboratory demands one for decisions.</summary>
    public static IReadOnlySet<Permission> BehindSecondFactor { get; } = Set(
    [
        Permission.DecideLots, Permission.IssueCertificates, Permission.ConcludeInvestigations, Permission.ApproveDocuments, Permission.ReviewAccess, Permission.AuthorisePeople, Permission.KeepPeople, Permission.KeepTerminals, Permission.KeepSettings,
    ]);

    /// <summary>Whether the role gives the right to sign: before it is given, somebody has made sure who the person is.</summary>
    public static bool Signs(this Role role) => All[role].Overlaps(Signing);

    /// <summary>The role in words.</summary>
    public static string Words(this Role role) => role switch
    {
        Role.Technician => "Laboratory technician",
        Role.Reviewer => "Reviewer",
        Role.QualityManager => "Quality manager",
        Role.LaboratoryManager => "Laboratory manager",
        Role.Administrator => "Administrator",
        Role.Customer => "Customer",
        _ => throw new ArgumentOutOfRangeException(nameof(role), role, "Not a role."),
    };

    private static HashSet<Permission> Set(Permission[] permissions) => [.. permissions];
}
