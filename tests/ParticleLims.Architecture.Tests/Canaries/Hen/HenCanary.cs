using ParticleLims.Architecture.Tests.Canaries.Egg;

namespace ParticleLims.Architecture.Tests.Canaries.Hen;

internal static class HenCanary
{
    public static int Lay() => EggCanary.Shell + 1;
}
