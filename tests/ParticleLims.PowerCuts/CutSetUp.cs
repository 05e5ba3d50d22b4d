using Microsoft.Extensions.DependencyInjection;
using ParticleLims.Analysis.Quantities;
using ParticleLims.Laboratory.Equipment;
using ParticleLims.Laboratory.Sieves;
using ParticleLims.TestLaboratory.SmallLaboratories;

namespace ParticleLims.PowerCuts;

/// <summary>Sets a small laboratory up with two sieves for each terminal.</summary>
internal static class CutSetUp
{
    public static async Task<CutBench> RunAsync(string folder, int terminals)
    {
        await using var services = await CutServices.OpenAsync(folder);
        var small = await SmallLaboratory.SetUpAsync(services, sievingSeconds: 1);
        var method = await small.WithMethodAsync(small.Starch, draft => draft with { Replicates = 1, RepeatabilityLimitPercent = null });
        var sieves = new List<IReadOnlyList<Guid>>();
        for (var terminal = 0; terminal < terminals; terminal++)
        {
            sieves.Add([await SieveAsync(small, terminal, 32), await SieveAsync(small, terminal, 63)]);
        }

        var people = small.People;
        var bench = new CutBench(small.BalanceId, method.ProductId, method.MethodVersionId, method.SpecificationVersionId, [.. Enumerable.Range(0, terminals).Select(at => at % 2 == 0 ? people.Technician.Id : people.SecondTechnician.Id)], sieves);
        bench.Write(folder);
        return bench;
    }

    private static async Task<Guid> SieveAsync(SmallLaboratory small, int terminal, int micrometres)
    {
        var manager = small.People.LaboratoryManager.Actor;
        var card = new SieveCard(FormattableString.Invariant($"TS-T{terminal}-{micrometres:000}"), Aperture.FromMicrometres(micrometres), 200, "ISO 3310-1:2016", "Rack B");
        var id = await small.Get<SieveRegister>().RegisterAsync(manager, card, null, CancellationToken.None);
        await small.Services.GetRequiredService<EquipmentLife<TestSieve>>().CommissionAsync(manager, id, "Inspection certificate", small.InAYear, 1, CancellationToken.None);
        return id;
    }
}
