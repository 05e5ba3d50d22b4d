using Microsoft.EntityFrameworkCore;
using ParticleLims.Analysis.Quantities;
using ParticleLims.Laboratory.Balances;
using ParticleLims.Laboratory.Equipment;
using ParticleLims.Laboratory.Methods;
using ParticleLims.Laboratory.Products;
using ParticleLims.Laboratory.Record;
using ParticleLims.Laboratory.Settings;
using ParticleLims.Laboratory.Sieves;
using ParticleLims.Laboratory.SievingUnits;
using ParticleLims.Laboratory.Specifications;
using ParticleLims.Laboratory.Storage;

namespace ParticleLims.Laboratory.Runs;

/// <summary>A sieve that could take a place in a run.</summary>
/// <param name="Sieve">The sieve.</param>
/// <param name="Uses">How many runs it was in.</param>
/// <param name="Unfit">Why it cannot be used now; null when it may.</param>
public sealed record SieveChoice(TestSieve Sieve, int Uses, string? Unfit);

/// <summary>A place of the method with the sieves of its aperture: those that may be used first, the least used first of them.</summary>
public sealed record SievePlace(int Position, Aperture Aperture, IReadOnlyList<SieveChoice> Choices)
{
    /// <summary>The least used sieve that may be used; null when there is none.</summary>
    public SieveChoice? Suggested => Choices.FirstOrDefault(choice => choice.Unfit is null);
}

/// <summary>A balance that could serve a run.</summary>
/// <param name="Balance">The balance.</param>
/// <param name="Unfit">Why it cannot be used now; null when it may.</param>
/// <param name="OnlyCheckMissing">Whether nothing but today's check is wanting, which the technician can do at once.</param>
public sealed record BalanceChoice(Balance Balance, string? Unfit, bool OnlyCheckMissing);

/// <summary>A sieving unit that could serve a run.</summary>
/// <param name="Unit">The unit.</param>
/// <param name="Unfit">Why it cannot be used now; null when it may.</param>
public sealed record UnitChoice(SievingUnit Unit, string? Unfit);

/// <summary>A planned run and the equipment to choose from.</summary>
/// <param name="Run">The run.</param>
/// <param name="Determinations">So many determinations make the sample's result.</param>
/// <param name="Method">Its method.</param>
/// <param name="MethodCode">The method's code.</param>
/// <param name="Product">Its product.</param>
/// <param name="Places">The sieves to choose from.</param>
/// <param name="Balances">The balances to choose from.</param>
/// <param name="Units">The sieving units to choose from.</param>
public sealed record RunChoices(
    Run Run, int Determinations, MethodVersion Method, string MethodCode, Product Product, IReadOnlyList<SievePlace> Places, IReadOnlyList<BalanceChoice> Balances, IReadOnlyList<UnitChoice> Units);

/// <summary>Lists the equipment that a planned run may be started with. Starting checks all of it again.</summary>
public sealed class RunChoosing(ReadPath reading, TimeProvider clock)
{
    /// <summary>The choices for a planned run; null when there is no such run.</summary>
    public Task<RunChoices?> ForAsync(Actor actor, Guid runId, CancellationToken cancellation) =>
        reading.ReadAsync(actor, Permission.SeeLaboratory, async (data, _, token) =>
            await data.Runs.FirstOrDefaultAsync(run => run.Id == runId, token) is { } run ? await OfAsync(data, run, token) : null, cancellation);

    /// <summary>Which balances can be used now, and why the others cannot.</summary>
    public Task<IReadOnlyList<BalanceChoice>> BalancesAsync(Actor actor, CancellationToken cancellation) =>
        reading.ReadAsync(actor, Permission.SeeLaboratory, (data, _, token) => BalancesAsync(data, token), cancellation);

    private async Task<RunChoices?> OfAsync(LaboratoryContext data, Run run, CancellationToken cancellation)
    {
        var method = await data.MethodVersions.Include(method => method.Sieves).SingleAsync(method => method.Id == run.MethodVersionId, cancellation);
        var code = await data.Methods.Where(one => one.Id == method.DocumentId).Select(one => one.Code).SingleAsync(cancellation);
        var product = await data.Products.SingleAsync(product => product.Id == run.ProductId, cancellation);
        var specification = await data.SpecificationVersions.SingleAsync(version => version.Id == run.SpecificationVersionId, cancellation);
        return new RunChoices(run, specification.DeterminationsBeside(method.Replicates), method, code, product, await PlacesAsync(data, run, method, cancellation), await BalancesAsync(data, run, method, cancellation), await UnitsAsync(data, run, method, cancellation));
    }

    private async Task<IReadOnlyList<SievePlace>> PlacesAsync(LaboratoryContext data, Run run, MethodVersion method, CancellationToken cancellation)
    {
        var today = (await SettingsKeeping.OfAsync(data, cancellation)).LocalDay(clock.GetUtcNow());
        var apertures = method.Sieves.Select(sieve => sieve.Aperture).ToList();
        var sieves = await data.TestSieves.Where(sieve => apertures.Contains(sieve.Aperture) && sieve.State != EquipmentState.Scrapped).ToListAsync(cancellation);
        var uses = await data.Set<RunSieve>().GroupBy(used => used.SieveId).Select(group => new { group.Key, Count = group.Count() }).ToDictionaryAsync(one => one.Key, one => one.Count, cancellation);
        var busy = await (from one in data.Runs
                          from used in one.Sieves
                          where one.State == RunState.InProgress && one.Id != run.Id
                          select new { used.SieveId, one.Number }).ToListAsync(cancellation);
        var fitness = new Dictionary<Guid, string?>();
        foreach (var sieve in sieves)
        {
            fitness[sieve.Id] = await FitnessOverriding.OrAllowedAsync(data, run.Id, sieve, (await SieveFitness.OfAsync(data, sieve, today, cancellation)).Unfit, cancellation);
        }

        var places = from place in method.Sieves
                     orderby place.Position
                     let choices = from sieve in sieves
                                   where sieve.Aperture == place.Aperture
                                   let other = busy.Find(one => one.SieveId == sieve.Id)?.Number
                                   let unfit = fitness[sieve.Id] ?? (other is null ? null : $"The {sieve.Label} is in use in run {other}.")
                                   orderby unfit is not null, uses.GetValueOrDefault(sieve.Id), sieve.Serial
                                   select new SieveChoice(sieve, uses.GetValueOrDefault(sieve.Id), unfit)
                     select new SievePlace(place.Position, place.Aperture, [.. choices]);
        return [.. places];
    }

    private async Task<IReadOnlyList<UnitChoice>> UnitsAsync(LaboratoryContext data, Run run, MethodVersion method, CancellationToken cancellation)
    {
        var settings = await SettingsKeeping.OfAsync(data, cancellation);
        var today = settings.LocalDay(clock.GetUtcNow());
        var isAirJet = method.Procedure != SievingProcedure.NestedStack;
        var units = await data.SievingUnits.Where(unit => unit.State != EquipmentState.Scrapped && unit.IsAirJet == isAirJet).OrderBy(unit => unit.Name).ToListAsync(cancellation);
        var choices = new List<UnitChoice>();
        foreach (var unit in units)
        {
            var fitness = await UnitFitness.OfAsync(data, unit, settings, today, cancellation);
            choices.Add(new UnitChoice(unit, await FitnessOverriding.OrAllowedAsync(data, run.Id, unit, fitness.Unfit, cancellation)));
        }

        return [.. choices.OrderBy(choice => choice.Unfit is not null)];
    }

    private async Task<IReadOnlyList<BalanceChoice>> BalancesAsync(LaboratoryContext data, Run run, MethodVersion method, CancellationToken cancellation)
    {
        var now = clock.GetUtcNow();
        var choices = new List<BalanceChoice>();
        foreach (var balance in await data.Balances.Where(balance => balance.State != EquipmentState.Scrapped).OrderBy(balance => balance.Name).ToListAsync(cancellation))
        {
            var fitness = await BalanceFitness.OfAsync(data, balance, method, now, cancellation);
            var unfit = await FitnessOverriding.OrAllowedAsync(data, run.Id, balance, fitness.Unfit, cancellation);
            choices.Add(new BalanceChoice(balance, unfit, unfit is not null && fitness.OnlyCheckMissing));
        }

        return InOrder(choices);
    }

    private async Task<IReadOnlyList<BalanceChoice>> BalancesAsync(LaboratoryContext data, CancellationToken cancellation)
    {
        var now = clock.GetUtcNow();
        var today = (await SettingsKeeping.OfAsync(data, cancellation)).LocalDay(now);
        var choices = new List<BalanceChoice>();
        foreach (var balance in await data.Balances.Where(balance => balance.State != EquipmentState.Scrapped).OrderBy(balance => balance.Name).ToListAsync(cancellation))
        {
            var unfit = await BalanceRegister.UnfitReasonAsync(data, balance, now, cancellation);
            choices.Add(new BalanceChoice(balance, unfit, unfit is not null && await BalanceRegister.StandingReasonAsync(data, balance, today, cancellation) is null));
        }

        return InOrder(choices);
    }

    private static IReadOnlyList<BalanceChoice> InOrder(List<BalanceChoice> choices) => [.. choices.OrderBy(choice => choice.Unfit is not null).ThenBy(choice => !choice.OnlyCheckMissing)];
}
