using System.Linq.Expressions;
using System.Reflection;
using ParticleLims.Laboratory.Record;

namespace ParticleLims.Laboratory.Tests.Record;

/// <summary>Who may do something: the six roles, whoever has not signed on, and the program itself.</summary>
[Flags]
internal enum Who
{
    Technician = 1,
    Reviewer = 2,
    QualityManager = 4,
    LaboratoryManager = 8,
    Administrator = 16,
    Customer = 32,
    NotSignedOn = 64,
    Program = 128,
    Bench = Technician | Reviewer,
    Staff = Bench | QualityManager | LaboratoryManager,
    Auditors = Reviewer | QualityManager | LaboratoryManager | Administrator,
    SignedOn = Staff | Administrator | Customer,
    Anybody = SignedOn | NotSignedOn,
}

/// <summary>One public method of a service: who may call it, and for a deed what event it leaves.</summary>
internal sealed class Ability
{
    private readonly Func<Stage, Actor, Task> ask;

    private Ability(Who may, Expression<Func<Stage, Actor, Task>> ask)
    {
        May = may;
        Method = ((MethodCallExpression)(ask.Body is UnaryExpression converted ? converted.Operand : ask.Body)).Method;
        TakesActor = Method.GetParameters().Any(parameter => parameter.ParameterType == typeof(Actor));
        this.ask = ask.Compile();
    }

    /// <summary>The roles that may.</summary>
    public Who May { get; }

    /// <summary>The method, read from the call itself.</summary>
    public MethodInfo Method { get; }

    /// <summary>Whether it is told who acts.</summary>
    public bool TakesActor { get; }

    /// <summary>The code of the one event that the deed leaves; null for a reading.</summary>
    public string? Event { get; private init; }

    /// <summary>The code with which the unprepared call is refused to somebody who may; null where it has no input that could be refused.</summary>
    public string? Refusal { get; private init; }

    /// <summary>A refusal that is a deed itself: a wrong password is recorded.</summary>
    public string? RefusalEvent { get; private init; }

    /// <summary>Whether it needs a laboratory that nobody has set up.</summary>
    public bool InEmpty { get; private init; }

    /// <summary>Brings the laboratory so far that the deed succeeds, and answers the deed.</summary>
    public Func<Stage, Task<Func<Task>>>? Prepare { get; private init; }

    /// <summary>For people: <c>RunStart.StartAsync/8</c>.</summary>
    public string Name => NameOf(Method);

    /// <summary>A method that writes nothing.</summary>
    public static Ability Reads(Who may, Expression<Func<Stage, Actor, Task>> ask) => new(may, ask);

    /// <summary>A method that writes, and how it comes to succeed.</summary>
    public static Ability Does(string code, Who may, string? refusal, Expression<Func<Stage, Actor, Task>> ask, Func<Stage, Task<Func<Task>>> prepare) =>
        new(may, ask) { Event = code, Refusal = refusal, Prepare = prepare };

    /// <summary>A method that writes and needs no preparation.</summary>
    public static Ability Does(string code, Who may, string? refusal, Expression<Func<Stage, Actor, Task>> ask, Func<Stage, Func<Task>> act) =>
        Does(code, may, refusal, ask, stage => Task.FromResult(act(stage)));

    /// <summary>The same, whose refusal leaves an event of its own.</summary>
    public Ability WhoseRefusalIsRecorded(string code) => new(this) { RefusalEvent = code };

    /// <summary>The same, in a laboratory that nobody has set up.</summary>
    public Ability InAnEmptyLaboratory() => new(this) { InEmpty = true };

    /// <summary>Calls the method unprepared: with inputs that belong to nothing.</summary>
    public Task AskAsync(Stage stage, Actor who) => ask(stage, who);

    /// <summary>A method's name with its type and its number of parameters.</summary>
    public static string NameOf(MethodInfo method)
    {
        var type = method.DeclaringType!;
        var arguments = type.IsGenericType ? $"<{type.GetGenericArguments()[0].Name}>" : string.Empty;
        return FormattableString.Invariant($"{type.Name.Split('`')[0]}{arguments}.{method.Name}/{method.GetParameters().Length}");
    }

    private Ability(Ability other)
    {
        (May, Method, TakesActor, ask) = (other.May, other.Method, other.TakesActor, other.ask);
        (Event, Refusal, RefusalEvent, InEmpty, Prepare) = (other.Event, other.Refusal, other.RefusalEvent, other.InEmpty, other.Prepare);
    }
}
