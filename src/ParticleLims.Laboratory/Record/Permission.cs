namespace ParticleLims.Laboratory.Record;

/// <summary>What a deed or a page needs. Which role holds which stands in <c>RolePermissions</c>.</summary>
public enum Permission
{
    /// <summary>Read lots, samples, runs, results and equipment.</summary>
    SeeLaboratory,
    /// <summary>Book in lots and samples.</summary>
    BookIn,
    /// <summary>Carry out runs.</summary>
    CarryOutRuns,
    /// <summary>Accept, return or invalidate somebody else's run.</summary>
    ReviewRuns,
    /// <summary>Decide on lots.</summary>
    DecideLots,
    /// <summary>Propose a concession for the quality manager to decide on.</summary>
    ProposeConcession,
    /// <summary>Issue and withdraw certificates.</summary>
    IssueCertificates,
    /// <summary>Read and download certificates; a customer only its own.</summary>
    SeeCertificates,
    /// <summary>Write products and customers.</summary>
    KeepProducts,
    /// <summary>Write drafts of methods and specifications.</summary>
    WriteDocuments,
    /// <summary>Approve methods and specifications written by somebody else.</summary>
    ApproveDocuments,
    /// <summary>Give and withdraw the authorisation to carry out runs by a method.</summary>
    AuthorisePeople,
    /// <summary>Read who is authorised for which method.</summary>
    SeeAuthorisations,
    /// <summary>Register sieves and balances, put them into service.</summary>
    KeepEquipment,
    /// <summary>Write and try the formats by which the lines of balances are read.</summary>
    KeepReadingFormats,
    /// <summary>Take equipment out of service.</summary>
    StopEquipment,
    /// <summary>Do the daily check of a balance.</summary>
    CheckBalances,
    /// <summary>Inspect and clean test sieves.</summary>
    InspectSieves,
    /// <summary>Check and care for sieving units.</summary>
    CheckSievingUnits,
    /// <summary>Add to an investigation.</summary>
    Investigate,
    /// <summary>Conclude an investigation.</summary>
    ConcludeInvestigations,
    /// <summary>Create people, grant roles, issue tokens.</summary>
    KeepPeople,
    /// <summary>Enrol and withdraw shared terminals.</summary>
    KeepTerminals,
    /// <summary>Change the laboratory's settings.</summary>
    KeepSettings,
    /// <summary>See accounts, roles and last uses as a whole.</summary>
    SeeAccess,
    /// <summary>Sign the review of accounts and roles.</summary>
    ReviewAccess,
    /// <summary>Read the audit trail.</summary>
    ReadRecord,
    /// <summary>Ask the engine to evaluate without storing.</summary>
    Evaluate,
    /// <summary>Held by the program alone: setting up, starting, migrating.</summary>
    ActAsProgram,
}

/// <summary>Permissions as people read them.</summary>
public static class PermissionWords
{
    /// <summary>The permission in words: "Decide lots".</summary>
    public static string Words(this Permission permission) =>
        string.Concat(permission.ToString().Select((letter, index) => index > 0 && char.IsUpper(letter) ? $" {char.ToLowerInvariant(letter)}" : letter.ToString()));
}
