using ParticleLims.Laboratory.People;

namespace ParticleLims.Laboratory.Tests.People;

public sealed class AccountRefusalTests
{
    private static readonly NewPerson Good = new("olin.hart", "Olin Hart", [Role.Technician], "seven blue kettles sing", "482915");

    [Theory]
    [EachDatabase]
    public async Task An_account_that_could_not_be_used_or_told_apart_is_refused(DatabaseKind kind)
    {
        await using var laboratory = await OpenedSmallLaboratory.OpenAsync(kind);
        var small = laboratory.Small;
        foreach (var (person, code) in Refused(small))
        {
            await laboratory.ShouldRefuseAsync(code, () => CreateAsync(small, person));
        }

        await CreateAsync(small, Good);
        await laboratory.ShouldRefuseAsync("sign-on-name-used", () => CreateAsync(small, Good with { SignOnName = "OLIN.hart" }));
    }

    [Theory]
    [EachDatabase]
    public async Task The_laboratory_is_not_left_without_an_administrator(DatabaseKind kind)
    {
        await using var laboratory = await OpenedSmallLaboratory.OpenAsync(kind);
        var small = laboratory.Small;
        var own = small.People.Administrator;
        await laboratory.ShouldRefuseAsync("own-account", () => small.Get<Accounts>().DisableAsync(own.Actor, own.Id, "I am leaving", 1, default));
        await laboratory.ShouldRefuseAsync("own-account", () => small.GiveRolesAsync(own, Role.Technician));
        await laboratory.ShouldRefuseAsync("own-account", () => small.GiveRolesAsync(own));
        await small.GiveRolesAsync(small.People.SecondTechnician, Role.Administrator);
        await small.Get<Accounts>().DisableAsync(small.People.SecondTechnician.Actor, own.Id, "Has left the mill", 1, default);
    }

    [Theory]
    [EachDatabase]
    public async Task A_customers_contact_is_nothing_besides(DatabaseKind kind)
    {
        await using var laboratory = await OpenedSmallLaboratory.OpenAsync(kind);
        await laboratory.ShouldRefuseAsync("customer-role", () => laboratory.Small.GiveRolesAsync(laboratory.Small.People.Customer, Role.Customer, Role.Technician));
        await laboratory.ShouldRefuseAsync("customer-role", () => laboratory.Small.GiveRolesAsync(laboratory.Small.People.Technician, Role.Customer));
    }

    private static IEnumerable<(NewPerson Person, string Code)> Refused(SmallLaboratory small) =>
    [
        (Good with { SignOnName = "ol" }, "sign-on-name"),
        (Good with { SignOnName = "olin hart" }, "sign-on-name"),
        (Good with { SignOnName = "olin\u0000" }, "sign-on-name"),
        (Good with { SignOnName = "TOM.REED" }, "sign-on-name-used"),
        (Good with { FullName = " " }, "person-incomplete"),
        (Good with { Roles = [] }, "person-incomplete"),
        (Good with { Password = "short" }, "password-length"),
        (Good with { Password = new string('a', 20) }, "password-guessable"),
        (Good with { Pin = "12345" }, "pin"),
        (Good with { Pin = "12345x" }, "pin"),
        (Good with { CustomerId = small.Customer }, "customer-role"),
        (Good with { Roles = [Role.Customer], Pin = null }, "customer-role"),
        (Good with { Roles = [Role.Customer, Role.Technician], CustomerId = small.Customer }, "customer-role"),
        (Good with { Roles = [Role.Customer], Pin = null, CustomerId = Guid.CreateVersion7() }, "not-found"),
    ];

    private static Task<Guid> CreateAsync(SmallLaboratory small, NewPerson person) => small.Get<Accounts>().CreateAsync(small.People.Administrator.Actor, person, null, default);
}
