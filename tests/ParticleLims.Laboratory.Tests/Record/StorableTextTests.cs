using ParticleLims.Laboratory.Customers;
using ParticleLims.Laboratory.Lots;
using ParticleLims.Laboratory.People;
using ParticleLims.Laboratory.Terminals;
using ParticleLims.Laboratory.Record;

namespace ParticleLims.Laboratory.Tests.Record;

/// <summary>Both databases take the same texts and refuse the same ones, in words.</summary>
public sealed class StorableTextTests
{
    [Theory]
    [EachDatabase]
    public async Task A_text_too_long_for_its_place_is_refused_in_words(DatabaseKind kind)
    {
        await using var laboratory = await OpenedSmallLaboratory.OpenAsync(kind);
        var small = laboratory.Small;
        var refusal = await laboratory.ShouldRefuseAsync("text-too-long", () => AddAsync(small, new string('N', 201)));
        refusal.Message.ShouldBe("The name has 201 characters; at most 200 are kept. Shorten it.");
        refusal.Member.ShouldBe("name");
        await AddAsync(small, new string('N', 200));
        await laboratory.ShouldRefuseAsync("text-too-long", () => small.Get<Accounts>().CreateAsync(
            small.People.Administrator.Actor, new NewPerson("olin.hart", new string('O', 201), [Role.Technician], "seven blue kettles sing"), null, default));
        await laboratory.ShouldRefuseAsync("text-too-long", () => small.Get<CustomerKeeping>().AddAsync(
            small.People.LaboratoryManager.At(new string('T', 101)), new CustomerCard("Halvard", "Quay 3", "mail"), null, default));
        await laboratory.ShouldRefuseAsync("text-too-long", () => small.Get<CustomerKeeping>().AddAsync(
            small.People.LaboratoryManager.Actor, new CustomerCard("Halvard", "Quay 3", "mail"), new string('k', 121), default));
    }

    [Theory]
    [EachDatabase(0x0000, "vard")]
    [EachDatabase(0xD83D, "vard")]
    [EachDatabase(0xD83D, "")]
    [EachDatabase(0xDC00, "vard")]
    public async Task What_is_no_character_is_refused(DatabaseKind kind, int code, string rest)
    {
        await using var laboratory = await OpenedSmallLaboratory.OpenAsync(kind);
        await laboratory.ShouldRefuseAsync("text-unreadable", () => AddAsync(laboratory.Small, $"Hal{(char)code}{rest}"));
        var written = await laboratory.ShouldRefuseAsync("text-unreadable", () => laboratory.Get<CustomerKeeping>().AddAsync(
            laboratory.Small.People.LaboratoryManager.Actor, new CustomerCard("Halvard", $"Quay{(char)code}{rest}", "mail"), null, default));
        written.Member.ShouldBe("address");
    }

    [Theory]
    [EachDatabase]
    public async Task Looking_for_what_is_no_character_breaks_nothing(DatabaseKind kind)
    {
        await using var laboratory = await OpenedSmallLaboratory.OpenAsync(kind);
        var small = laboratory.Small;
        await small.BookInLotAsync(small.Calcite);
        foreach (var part in (string[])["\0", "47\0", "%", "_", "'", "\\"])
        {
            (await FoundAsync(() => small.Get<LotSearch>().FindAsync(small.People.Technician.Actor, new LotQuestion(part), 0, 10, default))).ShouldBe(0);
        }

        (await Should.ThrowAsync<RefusedException>(() => small.Get<SignOn>().SignOnAsync("tom\0reed", "wrong", new TerminalSeen("T1"), default))).Code.ShouldBeOneOf("secret-wrong", "text-unreadable");
    }

    [Theory]
    [EachDatabase("Ōrrin “Baking” & Söhne; DROP TABLE lots; --")]
    [EachDatabase("מאפייה 粉 🌾")]
    [EachDatabase("<script>alert('x')</script>")]
    public async Task Every_other_text_comes_back_as_it_was_typed(DatabaseKind kind, string name)
    {
        await using var laboratory = await OpenedSmallLaboratory.OpenAsync(kind);
        var small = laboratory.Small;
        var id = await AddAsync(small, name);
        (await small.Get<CustomerKeeping>().AllAsync(small.People.Reviewer.Actor, default)).Single(customer => customer.Id == id).Name.ShouldBe(name);
        await small.Get<LotReception>().BookInAsync(small.People.Technician.Actor, new NewLot(name, small.Calcite.ProductId, id, new LotParticulars(1m, new DateOnly(2026, 3, 1))), null, default);
        (await laboratory.VerifyRecordAsync()).Fault.ShouldBeNull();
    }

    private static Task<Guid> AddAsync(SmallLaboratory small, string name) =>
        small.Get<CustomerKeeping>().AddAsync(small.People.LaboratoryManager.Actor, new CustomerCard(name, "Quay 3", "mail"), null, default);

    private static async Task<int> FoundAsync(Func<Task<LotPage>> find)
    {
        try
        {
            return (await find()).Total;
        }
        catch (RefusedException refusal)
        {
            refusal.Code.ShouldBe("text-unreadable");
            return 0;
        }
    }
}
