using ParticleLims.Laboratory.Tests.Record;

namespace ParticleLims.Laboratory.Tests.Walks;

/// <summary>What a deed is done to.</summary>
internal enum SubjectKind
{
    Laboratory,
    Lot,
    Run,
    Case,
    Document,
    Version,
}

/// <summary>One step of a walk: so it can be told, left out and repeated.</summary>
internal sealed record WalkStep(string Deed, int Subject, int Person, int Variant)
{
    public override string ToString() => FormattableString.Invariant($"{ModelLaboratory.Persons[Person]} {Deed} {Subject + 1}{(Variant == 0 ? string.Empty : $" (way {Variant})")}");
}

/// <summary>A step seen in the model: its subject by name.</summary>
internal sealed record Moment(ModelLaboratory Model, int Subject, int Person, int Variant)
{
    public ModelLot Lot => Model.Lots[Subject];

    public ModelRun Run => Model.Runs[Subject];

    public ModelCase Case => Model.Cases[Subject];

    public ModelVersion Version => Model.Versions[Subject];

    /// <summary>Own work stands in the way, unless the laboratory has one person only.</summary>
    public bool IsOwn(bool didTheWork) => didTheWork && !Model.Alone;
}

/// <summary>A deed in the model and in the laboratory.</summary>
/// <param name="Name">What people would call it.</param>
/// <param name="May">The roles that may.</param>
/// <param name="Kind">What it is done to.</param>
/// <param name="Abilities">The services' methods that it calls.</param>
internal sealed record WalkDeed(string Name, Who May, SubjectKind Kind, params string[] Abilities)
{
    /// <summary>Every rule that stands in its way now, by the code of its refusal; none where the model allows it.</summary>
    public required Func<Moment, IEnumerable<string>> Against { get; init; }

    /// <summary>What it changes.</summary>
    public required Action<Moment> Changes { get; init; }

    /// <summary>Carries it out in the laboratory.</summary>
    public required Func<Hand, Moment, Task> Act { get; init; }

    /// <summary>What whoever may do it does before, by a deed of its own.</summary>
    public Func<Hand, Moment, Task>? First { get; init; }

    /// <summary>Whether there is something to do it to at all: a walk cannot weigh again what was never weighed.</summary>
    public Func<Moment, bool> Exists { get; init; } = _ => true;

    /// <summary>In how many ways it can be done.</summary>
    public int Variants { get; init; } = 1;

    /// <summary>How often it is chosen where the model allows it, against the others.</summary>
    public int Weight { get; init; } = 10;

    /// <summary>Every way in which it could be tried now.</summary>
    public IEnumerable<Moment> Moments(ModelLaboratory model) =>
        from subject in Enumerable.Range(0, Kind switch
        {
            SubjectKind.Laboratory => 1,
            SubjectKind.Lot => model.Lots.Count,
            SubjectKind.Run => model.Runs.Count,
            SubjectKind.Case => model.Cases.Count,
            SubjectKind.Document => 2,
            _ => model.Versions.Count,
        })
        from person in Enumerable.Range(0, ModelLaboratory.Persons.Count)
        from variant in Enumerable.Range(0, Variants)
        let moment = new Moment(model, subject, person, variant)
        where Exists(moment)
        select moment;

    /// <summary>Whether one of the person's roles may.</summary>
    public bool IsPermitted(int person) => (int)(ModelLaboratory.Persons[person] & May) != 0;

    /// <summary>What the model says of it: every reason against it; "not-permitted" alone where the role is missing.</summary>
    public IReadOnlyList<string> Reasons(Moment moment) => IsPermitted(moment.Person) ? [.. Against(moment)] : ["not-permitted"];

    /// <summary>The state of what it is done to, for people and for counting.</summary>
    public string StateOf(Moment moment) => Kind switch
    {
        SubjectKind.Lot => moment.Lot.State.ToString(),
        SubjectKind.Run => moment.Run.State.ToString(),
        SubjectKind.Case => moment.Case.State.ToString(),
        SubjectKind.Version => moment.Version.State.ToString(),
        _ => "any",
    };

    /// <summary>All deeds of a walk.</summary>
    public static IReadOnlyList<WalkDeed> All { get; } = [.. RunDeeds.All, .. ReviewDeeds.All, .. CaseDeeds.All, .. LotDeeds.All, .. DocumentDeeds.All];
}
