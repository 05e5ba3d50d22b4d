using ParticleLims.Architecture.Tests.Canaries.Hen;

namespace ParticleLims.Architecture.Tests.Canaries.Egg;

internal static class EggCanary
{
    public static int Shell => Math.Sign(Environment.TickCount64);

    public static Func<int> Hatch() => () => HenCanary.Lay();
}
