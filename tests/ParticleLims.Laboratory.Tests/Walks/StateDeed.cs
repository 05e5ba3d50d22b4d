using ParticleLims.Laboratory.Record;
using ParticleLims.Laboratory.Tests.Record;

namespace ParticleLims.Laboratory.Tests.Walks;

/// <summary>A deed on something that has states: who may do it, in which of them, and with which word it is refused in the others.</summary>
internal sealed record StateDeed<TState>(string Name, Who May, TState[] In, Func<Stage, Actor, Guid, SecretProof, Task> Act)
    where TState : struct, Enum
{
    /// <summary>The code of the refusal in the other states.</summary>
    public required Func<TState, string> Otherwise { get; init; }
}

/// <summary>Tries every deed in every state by every role: what the table does not give is refused and writes nothing; what it gives succeeds.</summary>
internal static class StateTrial
{
    private static readonly Who[] Everybody = [Who.Technician, Who.Reviewer, Who.QualityManager, Who.LaboratoryManager, Who.Administrator, Who.Customer, Who.NotSignedOn];

    /// <summary>Tries them.</summary>
    /// <param name="stage">The laboratory.</param>
    /// <param name="deeds">The table.</param>
    /// <param name="make">Makes another thing in a state.</param>
    public static async Task GoAsync<TState>(Stage stage, IReadOnlyList<StateDeed<TState>> deeds, Func<TState, Task<Guid>> make)
        where TState : struct, Enum
    {
        foreach (var state in Enum.GetValues<TState>())
        {
            var thing = await make(state);
            var before = await stage.SumAsync();
            foreach (var deed in deeds)
            {
                foreach (var who in Everybody.Where(who => !deed.May.HasFlag(who) || !deed.In.Contains(state)))
                {
                    var told = $"{who}: {deed.Name}, {state}";
                    var refusal = await Should.ThrowAsync<RefusedException>(() => deed.Act(stage, stage.ActorOf(who), thing, new SecretProof(Guid.CreateVersion7())), told);
                    refusal.Code.ShouldBe(deed.May.HasFlag(who) ? deed.Otherwise(state) : "not-permitted", told);
                }
            }

            // Asked once for all that was refused: the sum of every table costs more than a refusal.
            (await stage.SumAsync()).ShouldBe(before, $"refused while {state}, and yet one of these has written: {string.Join(", ", deeds.Select(deed => deed.Name))}");
            foreach (var deed in deeds.Where(deed => deed.In.Contains(state)))
            {
                foreach (var who in Everybody.Where(who => deed.May.HasFlag(who)))
                {
                    await deed.Act(stage, stage.ActorOf(who), await make(state), await ProofAsync(stage, who));
                }
            }
        }
    }

    private static async Task<SecretProof> ProofAsync(Stage stage, Who who)
    {
        var actor = stage.ActorOf(who);
        TestPerson[] people = [stage.People.Technician, stage.People.Reviewer, stage.People.QualityManager, stage.People.LaboratoryManager, stage.People.Administrator, stage.People.Customer];
        return await stage.Small.ProofAsync(people.Single(person => person.Id == actor.PersonId));
    }
}
