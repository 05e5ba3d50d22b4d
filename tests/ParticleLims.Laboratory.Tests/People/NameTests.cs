using Microsoft.EntityFrameworkCore;
using ParticleLims.Laboratory.People;
using ParticleLims.Laboratory.Record;

namespace ParticleLims.Laboratory.Tests.People;

/// <summary>A name is one person's for ever, and a signature keeps the name that was printed when it was given.</summary>
public sealed class NameTests
{
    [Theory]
    [EachDatabase("nia.marsh")]
    [EachDatabase("NIA.Marsh")]
    [EachDatabase(" nia.marsh ")]
    public async Task The_sign_on_name_of_somebody_who_has_left_is_given_to_nobody_again(DatabaseKind kind, string again)
    {
        await using var laboratory = await OpenedSmallLaboratory.OpenAsync(kind);
        var (small, leaver) = (laboratory.Small, laboratory.Small.People.SecondTechnician);
        await small.Get<Accounts>().DisableAsync(small.People.Administrator.Actor, leaver.Id, "Has left the mill", 1, default);
        var other = new NewPerson(again, "Nick Marsh", [Role.Customer], "seven blue kettles sing", CustomerId: small.Customer);
        var refusal = await laboratory.ShouldRefuseAsync("sign-on-name-used", () => small.Get<Accounts>().CreateAsync(small.People.Administrator.Actor, other, null, default));
        refusal.Message.ShouldContain("Names are never given again");
        (await small.Get<Accounts>().AllAsync(small.People.Administrator.Actor, default)).Single(row => row.Id == leaver.Id).Active.ShouldBeFalse("the account stays, disabled");
    }

    /// <summary>The program has no deed that renames somebody; here the row is changed past it.</summary>
    [Theory]
    [EachDatabase]
    public async Task Whoever_is_called_otherwise_later_keeps_the_old_name_on_old_signatures(DatabaseKind kind)
    {
        await using var laboratory = await OpenedSmallLaboratory.OpenAsync(kind);
        var (small, reviewer) = (laboratory.Small, laboratory.Small.People.Reviewer);
        var before = await (await (await small.BookInAsync(small.Calcite)).SubmitAsync(Powder.Calcite)).AcceptAsync();
        await using (var data = laboratory.Data())
        {
            (await data.Set<Person>().Where(person => person.Id == reviewer.Id).ExecuteUpdateAsync(person => person.SetProperty(one => one.FullName, "Ruth Vale-Hollow"))).ShouldBe(1);
        }

        var after = await (await (await small.BookInAsync(small.Calcite)).SubmitAsync(Powder.Calcite)).AcceptAsync();
        (await NamesAsync(laboratory, before.RunId)).ShouldBe([("Ruth Vale", true)]);
        (await NamesAsync(laboratory, after.RunId)).ShouldBe([("Ruth Vale-Hollow", true)]);
        await using var record = laboratory.Data();
        (await record.Events.AsNoTracking().Where(one => one.SubjectId == before.RunId && one.Code == "review.accept").Select(one => one.PersonName).SingleAsync()).ShouldBe("Ruth Vale");
    }

    private static async Task<List<(string Name, bool? Unchanged)>> NamesAsync(OpenedSmallLaboratory laboratory, Guid run) =>
        (await laboratory.Get<SignatureReading>().OfAsync(laboratory.Small.People.QualityManager.Actor, run, default)).ConvertAll(seen => (seen.PrintedName, seen.Unchanged));
}
