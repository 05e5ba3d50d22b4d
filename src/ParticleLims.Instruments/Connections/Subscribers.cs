using System.Collections.Immutable;

namespace ParticleLims.Instruments.Connections;

/// <summary>Those who want to hear of each change. Anyone may come and go at any time, from any thread.</summary>
internal sealed class Subscribers<T>(Action<Exception>? subscriberFailed)
{
    private ImmutableArray<Subscription> _all = [];

    public IDisposable Add(Action<T> onChange)
    {
        var subscription = new Subscription(this, onChange);
        ImmutableInterlocked.Update(ref _all, static (all, one) => all.Add(one), subscription);
        return subscription;
    }

    public void Tell(T news)
    {
        foreach (var subscription in _all)
        {
            if (subscription.Ended)
            {
                continue;
            }

            try
            {
                subscription.OnChange(news);
            }
            catch (Exception failure) when (failure is not OutOfMemoryException)
            {
                // One closed page must not cost the others their balance.
                subscription.Dispose();
                subscriberFailed?.Invoke(failure);
            }
        }
    }

    private sealed class Subscription(Subscribers<T> owner, Action<T> onChange) : IDisposable
    {
        public Action<T> OnChange { get; } = onChange;

        public bool Ended { get; private set; }

        public void Dispose()
        {
            Ended = true;
            ImmutableInterlocked.Update(ref owner._all, static (all, one) => all.Remove(one), this);
        }
    }
}
