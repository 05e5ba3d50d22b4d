using ParticleLims.Instruments.Simulation;
using ParticleLims.Laboratory.SievingUnits;
using ParticleLims.Web.Balances;

namespace ParticleLims.Web.SievingUnits;

/// <summary>Runs the simulated pressure gauge of the demonstration on any free port and notes it in the register.</summary>
internal sealed class SimulatedGaugeHost(SimulationPlace place, SievingUnitRegister register, TimeProvider clock) : IHostedService
{
    private SimulatedGauge? running;

    public async Task StartAsync(CancellationToken cancellationToken)
    {
        if (!place.Demonstration || (await register.WithGaugeAsync(cancellationToken)).Find(unit => unit.GaugeHost is "127.0.0.1" or "localhost") is not { } unit)
        {
            return;
        }

        running = SimulatedGauge.Start(0, clock);
        await register.FollowSimulationAsync(unit.Id, "127.0.0.1", running.Port, cancellationToken);
    }

    public async Task StopAsync(CancellationToken cancellationToken)
    {
        if (running is { } gauge)
        {
            await gauge.DisposeAsync();
        }
    }
}
