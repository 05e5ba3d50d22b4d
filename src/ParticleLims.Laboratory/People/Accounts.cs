using System.Security.Cryptography;
using Microsoft.AspNetCore.Identity;
using Microsoft.EntityFrameworkCore;
using ParticleLims.Laboratory.Customers;
using ParticleLims.Laboratory.Record;

namespace ParticleLims.Laboratory.People;

/// <summary>A new account. Without a password the person sets it with an activation code.</summary>
public sealed record NewPerson(string SignOnName, string FullName, IReadOnlyList<Role> Roles, string? Password = null, string? Pin = null, Guid? CustomerId = null)
{
    /// <summary>How somebody made sure who it is; needed for a role that signs.</summary>
    public IdentitySeen? Identity { get; init; }
}

/// <summary>A person as the administrator's list shows it.</summary>
public sealed record PersonRow(Guid Id, string SignOnName, string FullName, IReadOnlyList<Role> Roles, bool Active, Guid? CustomerId, long Version);

/// <summary>A customer as somebody chooses one.</summary>
public sealed record CustomerChoice(Guid Id, string Name);

/// <summary>Accounts: created, given roles, disabled.</summary>
public sealed class Accounts(WritePath writing, ReadPath reading, IPasswordHasher<Person> hasher)
{
    private static readonly DeedKind CreateDeed = new("people.create", "Account created", Permission.KeepPeople);
    private static readonly DeedKind RolesDeed = new("people.set-roles", "Roles changed", Permission.KeepPeople, ReasonRequired: true);
    private static readonly DeedKind DisableDeed = new("people.disable", "Account disabled", Permission.KeepPeople, ReasonRequired: true);
    private static readonly DeedKind IdentityDeed = new("people.check-identity", "Identity verified", Permission.KeepPeople);
    private static readonly DeedKind PinDeed = new("people.set-pin", "PIN set or removed", null);
    private static readonly DeedKind PasswordDeed = new("people.change-password", "Password changed", null);

    /// <summary>Creates an account.</summary>
    public Task<Guid> CreateAsync(Actor actor, NewPerson person, string? key, CancellationToken cancellation) =>
        writing.CarryOutAsync(new Deed(CreateDeed, actor, key) { Asked = new { person.SignOnName, person.FullName, person.Roles, person.CustomerId, person.Identity } }, (scope, token) => AddAsync(scope, person, hasher, token), cancellation);

    /// <summary>Sets the roles that a person holds.</summary>
    public Task<bool> SetRolesAsync(Actor actor, Guid personId, IReadOnlyList<Role> roles, string reason, long version, CancellationToken cancellation) =>
        writing.CarryOutAsync(new Deed(RolesDeed, actor, Reason: reason), async (scope, token) =>
        {
            var person = await FindAsync(scope, personId, version, token);
            if (roles.Contains(Role.Customer) && (roles.Count > 1 || person.CustomerId is null))
            {
                throw new RefusedException("customer-role", "A customer's contact holds the role Customer alone and belongs to one customer.", "roles");
            }

            if (roles.Except(person.Roles.Select(held => held.Role)).Any(role => role.Signs()) && !await scope.Data.Set<IdentityCheck>().AnyAsync(one => one.PersonId == person.Id, token))
            {
                throw IdentityMissing(person.FullName);
            }

            if (person.Id == scope.By.PersonId && !roles.Contains(Role.Administrator))
            {
                throw new RefusedException("own-account", "Nobody gives up the administrator's role for themselves: the laboratory could be left without one. Ask another administrator.", "roles");
            }

            person.Roles.RemoveAll(held => !roles.Contains(held.Role));
            person.Roles.AddRange(roles.Except(person.Roles.Select(held => held.Role)).Select(role => new PersonRole { PersonId = person.Id, Role = role, GrantedAt = scope.Now }));
            person.SecurityStamp = NewStamp();
            return true;
        }, cancellation);

    /// <summary>Writes down that the identity of a person was verified.</summary>
    public Task<bool> CheckIdentityAsync(Actor actor, Guid personId, IdentitySeen seen, CancellationToken cancellation) =>
        writing.CarryOutAsync(new Deed(IdentityDeed, actor), async (scope, token) =>
        {
            ArgumentNullException.ThrowIfNull(seen);
            var person = await scope.FindAsync<Person>(personId, "person", token);
            scope.About("Person", person.Id, person.FullName);
            scope.Data.Add(IdentityCheck.Of(scope, person.Id, seen));
            return true;
        }, cancellation);

    /// <summary>When and how the identity of a person was verified, the newest first.</summary>
    public Task<List<IdentityCheck>> IdentityChecksAsync(Actor actor, Guid personId, CancellationToken cancellation) =>
        reading.ReadAsync(actor, Permission.KeepPeople, (data, _, token) => data.Set<IdentityCheck>().Where(one => one.PersonId == personId).OrderByDescending(one => one.WrittenAt).ToListAsync(token), cancellation);

    /// <summary>Disables an account; its sessions end and its name is never given again.</summary>
    public Task<bool> DisableAsync(Actor actor, Guid personId, string reason, long version, CancellationToken cancellation) =>
        writing.CarryOutAsync(new Deed(DisableDeed, actor, Reason: reason), async (scope, token) =>
        {
            var person = await FindAsync(scope, personId, version, token);
            if (person.Id == scope.By.PersonId)
            {
                throw new RefusedException("own-account", "Nobody disables their own account. Ask another administrator.");
            }

            person.Active = false;
            person.SecurityStamp = NewStamp();
            return true;
        }, cancellation);

    /// <summary>A person changes their own password; other sessions end.</summary>
    public async Task<bool> ChangePasswordAsync(Actor actor, SecretProof proof, string newPassword, CancellationToken cancellation)
    {
        ArgumentNullException.ThrowIfNull(proof);
        return await writing.CarryOutAsync(new Deed(PasswordDeed, actor), async (scope, token) =>
        {
            var person = await SecondFactors.OwnAsync(scope, proof, token);
            PasswordRules.Require(newPassword, person.UserName!, person.FullName);
            person.PasswordHash = hasher.HashPassword(person, newPassword);
            person.SecurityStamp = NewStamp();
            return true;
        }, cancellation);
    }

    /// <summary>A person sets their own PIN for shared terminals, or removes it.</summary>
    /// <param name="actor">The person.</param>
    /// <param name="proof">The password, given just now.</param>
    /// <param name="pin">The new PIN; null to sign on with the password alone.</param>
    /// <param name="cancellation">Ends the deed before it is written.</param>
    public async Task<bool> SetPinAsync(Actor actor, SecretProof proof, string? pin, CancellationToken cancellation)
    {
        ArgumentNullException.ThrowIfNull(proof);
        return await writing.CarryOutAsync(new Deed(PinDeed, actor), async (scope, token) =>
        {
            var person = await SecondFactors.OwnAsync(scope, proof, token);
            person.PinHash = pin is null ? null : Hashed(pin, person, hasher);
            return true;
        }, cancellation);
    }

    /// <summary>Whether the actor has a PIN.</summary>
    public async Task<bool> HasPinAsync(Actor actor, CancellationToken cancellation)
    {
        var person = (await reading.StandingOfAsync(actor, cancellation)).PersonId;
        return await reading.ReadOpenlyAsync((data, token) => data.Set<Person>().AnyAsync(one => one.Id == person && one.PinHash != null, token), cancellation);
    }

    /// <summary>Everybody, for the administrator.</summary>
    public Task<List<PersonRow>> AllAsync(Actor actor, CancellationToken cancellation) =>
        reading.ReadAsync(actor, Permission.KeepPeople, (data, _, token) => data.Set<Person>().OrderBy(person => person.FullName)
            .Select(person => new PersonRow(person.Id, person.UserName!, person.FullName, person.Roles.Select(role => role.Role).ToList(), person.Active, person.CustomerId, person.Version))
            .ToListAsync(token), cancellation);

    /// <summary>The customers to whom a contact may belong, by name.</summary>
    public Task<List<CustomerChoice>> CustomersAsync(Actor actor, CancellationToken cancellation) =>
        reading.ReadAsync(actor, Permission.KeepPeople, (data, _, token) => data.Customers.OrderBy(customer => customer.Name).Select(customer => new CustomerChoice(customer.Id, customer.Name)).ToListAsync(token), cancellation);

    /// <summary>Adds a person within a deed that is already running: here and when a laboratory is set up.</summary>
    internal static async Task<Guid> AddAsync(DeedScope scope, NewPerson wanted, IPasswordHasher<Person> hasher, CancellationToken cancellation)
    {
        var name = wanted.SignOnName.Trim();
        if (name.Length is < 3 or > 40 || !name.All(letter => char.IsAsciiLetterOrDigit(letter) || letter is '.' or '-'))
        {
            throw new RefusedException("sign-on-name", "A sign-on name has 3 to 40 letters, digits, dots or hyphens.", "signOnName");
        }

        if (string.IsNullOrWhiteSpace(wanted.FullName) || wanted.Roles.Count == 0)
        {
            throw new RefusedException("person-incomplete", "A person has a full name and at least one role.", "fullName");
        }

        if (wanted.Roles.Contains(Role.Customer) != (wanted.CustomerId is not null) || (wanted.CustomerId is not null && wanted.Roles.Count > 1))
        {
            throw new RefusedException("customer-role", "A customer's contact holds the role Customer alone and belongs to one customer.", "roles");
        }

        if (await scope.Data.Set<Person>().AnyAsync(person => person.NormalizedUserName == SignOn.Normal(name), cancellation))
        {
            throw new RefusedException("sign-on-name-used", $"The sign-on name “{name}” belongs or belonged to somebody. Names are never given again: choose another.", "signOnName");
        }

        if (wanted.CustomerId is { } customer)
        {
            await scope.FindAsync<Customer>(customer, "customer", cancellation);
        }

        if (wanted.Identity is null && wanted.Roles.Any(role => role.Signs()))
        {
            throw IdentityMissing(wanted.FullName.Trim());
        }

        if (wanted.Password is { } given)
        {
            PasswordRules.Require(given, name, wanted.FullName);
        }

        var person = new Person
        {
            Id = scope.NewId(), UserName = name, NormalizedUserName = SignOn.Normal(name), FullName = wanted.FullName.Trim(), CustomerId = wanted.CustomerId,
            SecurityStamp = NewStamp(), CreatedAt = scope.Now,
        };
        person.PasswordHash = wanted.Password is { } password ? hasher.HashPassword(person, password) : null;
        person.PinHash = wanted.Pin is { } pin ? Hashed(pin, person, hasher) : null;
        person.Roles.AddRange(wanted.Roles.Distinct().Select(role => new PersonRole { PersonId = person.Id, Role = role, GrantedAt = scope.Now }));
        scope.Data.Add(person);
        if (wanted.Identity is { } seen)
        {
            scope.Data.Add(IdentityCheck.Of(scope, person.Id, seen));
        }

        if (scope.Subject is null)
        {
            scope.About("Person", person.Id, person.FullName);
        }

        return person.Id;
    }

    private static RefusedException IdentityMissing(string name) =>
        new("identity-not-checked", $"Somebody makes sure who {name} is before they may sign: write down who looked, how and when.", "identity");

    private static string Hashed(string pin, Person person, IPasswordHasher<Person> hasher)
    {
        PinRules.Require(pin);
        return hasher.HashPassword(person, pin);
    }

    /// <summary>A disabled account stays as it was: it keeps its name for ever and gets nothing any more.</summary>
    internal static void RequireActive(Person person)
    {
        if (!person.Active)
        {
            throw new RefusedException("account-disabled", $"The account of {person.FullName} is disabled.");
        }
    }

    /// <summary>A new stamp: sessions under an earlier one are over.</summary>
    internal static string NewStamp() => Convert.ToHexString(RandomNumberGenerator.GetBytes(20));

    private static async Task<Person> FindAsync(DeedScope scope, Guid personId, long version, CancellationToken cancellation)
    {
        var person = await scope.Data.Set<Person>().Include(person => person.Roles).FirstOrDefaultAsync(person => person.Id == personId, cancellation)
            ?? throw new RefusedException("not-found", "There is no such person.");
        DeedScope.RequireVersion(person, version, person.FullName);
        RequireActive(person);
        scope.About("Person", person.Id, person.FullName);
        return person;
    }
}
