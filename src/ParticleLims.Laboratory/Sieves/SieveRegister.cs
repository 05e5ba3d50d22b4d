using Microsoft.EntityFrameworkCore;
using ParticleLims.Laboratory.Record;

namespace ParticleLims.Laboratory.Sieves;

/// <summary>The register of test sieves.</summary>
public sealed class SieveRegister(WritePath writing, ReadPath reading)
{
    private static readonly DeedKind RegisterDeed = new("sieves.register", "Test sieve registered", Permission.KeepEquipment);

    /// <summary>Registers a sieve; it awaits its commissioning.</summary>
    public Task<Guid> RegisterAsync(Actor actor, SieveCard card, string? key, CancellationToken cancellation) =>
        writing.CarryOutAsync(new Deed(RegisterDeed, actor, key) { Asked = card }, async (scope, token) =>
        {
            card.Check();
            var serial = card.Serial.Trim();
            if (await scope.Data.TestSieves.AnyAsync(sieve => sieve.Serial == serial, token))
            {
                throw new RefusedException("sieve-serial-used", $"There is a sieve {serial} already.", "serial");
            }

            var added = card.Add(scope, RegisterDeed.Words, card.Standard);
            scope.About(nameof(TestSieve), added.Id, added.Label);
            return added.Id;
        }, cancellation);

    /// <summary>All sieves, the finest first.</summary>
    public Task<List<TestSieve>> AllAsync(Actor actor, CancellationToken cancellation) =>
        reading.ReadAsync(actor, Permission.SeeLaboratory, (data, _, token) => data.TestSieves.OrderBy(sieve => sieve.Aperture).ThenBy(sieve => sieve.Serial).ToListAsync(token), cancellation);

    /// <summary>One sieve.</summary>
    public Task<TestSieve?> FindAsync(Actor actor, Guid id, CancellationToken cancellation) =>
        reading.ReadAsync(actor, Permission.SeeLaboratory, (data, _, token) => data.TestSieves.FirstOrDefaultAsync(sieve => sieve.Id == id, token), cancellation);
}
