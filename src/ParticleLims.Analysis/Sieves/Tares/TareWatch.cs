using System.Globalization;
using ParticleLims.Analysis.Quantities;

namespace ParticleLims.Analysis.Sieves.Tares;

/// <summary>The state between two weighings: the baseline, the moving average, and the variances of both over that of a weighing.</summary>
internal sealed class TareWatch(TareSettings settings, double sigma)
{
    private int _count;
    private int _first;
    private double _baseline;
    private double _average;
    private double _averageVariance;
    private double _kept;

    /// <summary>The finding of a weighing, if there is one; the watch then begins anew with it.</summary>
    public TareFinding? See(int index, double micrograms)
    {
        if (_count == 0)
        {
            Begin(index, micrograms);
            return null;
        }

        var leap = micrograms - _average;
        if (Math.Abs(leap) > settings.StepWidth * sigma * Math.Sqrt(1 + _averageVariance))
        {
            Begin(index, micrograms);
            return Finding(index, leap < 0 ? TareChange.Damage : TareChange.Residue, leap, "at once");
        }

        Take(micrograms);
        var drift = _average - _baseline;
        if (_count <= settings.BaselineCount || Math.Abs(drift) <= settings.SlowWidth * sigma * Math.Sqrt(DriftVariance()))
        {
            return null;
        }

        var since = string.Create(CultureInfo.InvariantCulture, $"slowly, since weighing {_first + 1}");
        Begin(index, micrograms);
        return Finding(index, drift < 0 ? TareChange.Wear : TareChange.Blinding, drift, since);
    }

    private void Begin(int index, double micrograms) => (_count, _first, _baseline, _average, _averageVariance, _kept) = (1, index, micrograms, micrograms, 1, 1);

    private void Take(double micrograms)
    {
        _count++;
        if (_count <= settings.BaselineCount)
        {
            _average += (micrograms - _average) / _count;
            _averageVariance = 1.0 / _count;
            _baseline = _average;
            return;
        }

        var rest = 1 - settings.Weight;
        _average = (settings.Weight * micrograms) + (rest * _average);
        _averageVariance = (settings.Weight * settings.Weight) + (rest * rest * _averageVariance);
        _kept *= rest;
    }

    /// <summary>The average still holds the share _kept of the baseline; the rest of it is independent of the baseline.</summary>
    private double DriftVariance()
    {
        var baseline = 1.0 / settings.BaselineCount;
        var ofLater = _averageVariance - (_kept * _kept * baseline);
        return ofLater + ((1 - _kept) * (1 - _kept) * baseline);
    }

    private static TareFinding Finding(int index, TareChange change, double micrograms, string when)
    {
        var cause = change switch
        {
            TareChange.Wear => "it looks like wear",
            TareChange.Blinding => "it looks as if particles stay in the apertures",
            TareChange.Damage => "it looks like damage",
            _ => "it looks as if something stayed on it",
        };
        return new TareFinding
        {
            Index = index,
            Change = change,
            Amount = Mass.FromMicrograms((long)Math.Round(micrograms)),
            Words = string.Create(CultureInfo.InvariantCulture, $"The sieve {(micrograms < 0 ? "lost" : "gained")} {Math.Abs(micrograms) / 1000:0.0} mg {when}: {cause}."),
        };
    }
}
