using ParticleLims.Laboratory.Record;

namespace ParticleLims.TestLaboratory.SmallLaboratories;

/// <summary>An invented person of the small laboratory.</summary>
/// <param name="Id">The account.</param>
/// <param name="SignOnName">The sign-on name.</param>
/// <param name="FullName">The printed name.</param>
/// <param name="Password">The password, in clear.</param>
public sealed record TestPerson(Guid Id, string SignOnName, string FullName, string Password)
{
    /// <summary>The person at the terminal "T1".</summary>
    public Actor Actor => At("T1");

    /// <summary>The person at a terminal.</summary>
    public Actor At(string terminal) => new(Id, terminal);
}

/// <summary>Everybody in the small laboratory; nobody holds two roles.</summary>
public sealed record TestPeople
{
    /// <summary>Carries out runs.</summary>
    public required TestPerson Technician { get; init; }

    /// <summary>Carries out runs, on the next shift.</summary>
    public required TestPerson SecondTechnician { get; init; }

    /// <summary>Looks at runs.</summary>
    public required TestPerson Reviewer { get; init; }

    /// <summary>Decides.</summary>
    public required TestPerson QualityManager { get; init; }

    /// <summary>Keeps equipment, wrote the methods and specifications.</summary>
    public required TestPerson LaboratoryManager { get; init; }

    /// <summary>Keeps people.</summary>
    public required TestPerson Administrator { get; init; }

    /// <summary>The contact of <see cref="SmallLaboratory.Customer"/>.</summary>
    public required TestPerson Customer { get; init; }
}
