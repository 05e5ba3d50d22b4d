namespace ParticleLims.Instruments.Connections;

/// <summary>How much may come in: a bucket that fills steadily and from which each piece is taken. Not thread-safe.</summary>
internal sealed class InflowLimit
{
    private readonly TimeProvider _clock;
    private readonly double _perSecond;
    private readonly double _atOnce;
    private double _left;
    private long _filled;

    public InflowLimit(TimeProvider clock, double perSecond, double atOnce)
    {
        (_clock, _perSecond, _atOnce, _left) = (clock, perSecond, atOnce, atOnce);
        _filled = clock.GetTimestamp();
    }

    public bool Allows(int amount)
    {
        var now = _clock.GetTimestamp();
        _left = Math.Min(_atOnce, _left + (_clock.GetElapsedTime(_filled, now).TotalSeconds * _perSecond));
        _filled = now;
        if (amount > _left)
        {
            return false;
        }

        _left -= amount;
        return true;
    }
}
