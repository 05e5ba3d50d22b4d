using System.Runtime.InteropServices;
using System.Runtime.Intrinsics;
using ParticleLims.Analysis.Distributions;
using ParticleLims.Analysis.Uncertainty.Curves;
using ParticleLims.Analysis.Weighings;

namespace ParticleLims.Analysis.Uncertainty.Trials;

/// <summary>
/// Trials of a run: what was weighed, moved by draws of every input, led through the same formulas as the run itself. Percentages are kept between 0 and 100 %, as the engine keeps a residue between
/// nothing and the whole.
/// </summary>
internal sealed class SievingTrials : ITrialModel
{
    private const int Width = TrialColumn.Length;

    private readonly MeasurementModel _model;
    private readonly IReadOnlyList<Subject> _subjects;
    private readonly int[] _cutOf;
    private readonly int _cuts;
    private readonly double[]? _triangle;
    private readonly WeighedTrials? _weighed;

    public SievingTrials(MeasurementModel model, IReadOnlyList<Subject> subjects)
    {
        (_model, _subjects) = (model, subjects);
        _cutOf = [.. subjects.Select(model.CutOf)];
        _cuts = model.Percent.Length;
        _triangle = model.PortionCovariance is { } covariance ? PortionTaking.Triangle(covariance, _cuts) : null;
        _weighed = model.Request.Procedure == Procedure.GivenDistribution ? null : new WeighedTrials(model);
    }

    public int Outputs => _subjects.Count;

    /// <summary>What is weighed; percentages, their monotone ones, sizes and logarithms of each cut; and one to draw in.</summary>
    public int Columns => (_weighed?.Columns ?? 0) + (4 * _cuts) + 1;

    public void Run(ref TrialRandom random, Span<double> workspace, Span<double> outputs)
    {
        var percent = workspace[..(_cuts * Width)];
        var repaired = workspace.Slice(_cuts * Width, _cuts * Width);
        var sizes = workspace.Slice(2 * _cuts * Width, _cuts * Width);
        var logs = workspace.Slice(3 * _cuts * Width, _cuts * Width);
        Percentages(ref random, workspace[(((4 * _cuts) + 1) * Width)..], percent);
        TakePortion(ref random, percent, workspace.Slice(4 * _cuts * Width, Width));
        Bound(percent);
        percent.CopyTo(repaired);
        TrialRepair.Apply(repaired, _model.Weights);
        Sizes(ref random, sizes, logs);
        for (var i = 0; i < _subjects.Count; i++)
        {
            Read(i, percent, repaired, sizes, logs, outputs.Slice(i * Width, Width));
        }
    }

    private void Percentages(ref TrialRandom random, Span<double> drawn, Span<double> percent)
    {
        if (_weighed is not null)
        {
            _weighed.Passing(ref random, drawn, percent);
            return;
        }

        for (var cut = 0; cut < _cuts; cut++)
        {
            var column = percent.Slice(cut * Width, Width);
            column.Fill(_model.Percent[cut]);
            if (_model.Inputs.Places[cut].Given is >= 0 and var given)
            {
                TrialColumn.AddNormal(column, _model.Inputs.Inputs[given].StandardUncertainty, ref random);
            }
        }
    }

    private void TakePortion(ref TrialRandom random, Span<double> percent, Span<double> drawn)
    {
        for (var k = 0; _triangle is not null && k < _cuts; k++)
        {
            drawn.Clear();
            TrialColumn.AddNormal(drawn, 1, ref random);
            for (var cut = k; cut < _cuts; cut++)
            {
                Add(percent.Slice(cut * Width, Width), drawn, _triangle[(cut * _cuts) + k]);
            }
        }
    }

    private static void Bound(Span<double> percent)
    {
        foreach (ref var vector in MemoryMarshal.Cast<double, Vector256<double>>(percent))
        {
            vector = Vector256.Min(Vector256.Max(vector, Vector256<double>.Zero), Vector256.Create(100.0));
        }
    }

    private void Sizes(ref TrialRandom random, Span<double> sizes, Span<double> logs)
    {
        for (var cut = 0; cut < _cuts; cut++)
        {
            var size = sizes.Slice(cut * Width, Width);
            var log = logs.Slice(cut * Width, Width);
            size.Fill(_model.Sizes[cut]);
            log.Fill(_model.Logs[cut]);
            if (_model.Inputs.Places[cut].Aperture is >= 0 and var aperture)
            {
                TrialColumn.AddNormal(size, _model.Inputs.Inputs[aperture].StandardUncertainty, ref random);
                Vary(size, log, _model.Sizes[cut]);
            }
        }
    }

    /// <summary>An aperture drawn at nothing or below stays above it.</summary>
    private static void Vary(Span<double> size, Span<double> log, double micrometres)
    {
        var sizes = MemoryMarshal.Cast<double, Vector256<double>>(size);
        var logs = MemoryMarshal.Cast<double, Vector256<double>>(log);
        for (var i = 0; i < sizes.Length; i++)
        {
            sizes[i] = Vector256.Max(sizes[i], Vector256.Create(micrometres / 1000));
            logs[i] = VectorFunctions.Log(sizes[i]);
        }
    }

    private void Read(int subject, ReadOnlySpan<double> percent, ReadOnlySpan<double> repaired, ReadOnlySpan<double> sizes, ReadOnlySpan<double> logs, Span<double> output)
    {
        var (asked, cut) = (_subjects[subject], _cutOf[subject]);
        if (cut >= 0)
        {
            percent.Slice(cut * Width, Width).CopyTo(output);
            if (asked.Characteristic == Characteristic.Retained)
            {
                foreach (ref var value in output)
                {
                    value = 100 - value;
                }
            }
        }
        else if (asked.Characteristic == Characteristic.Percentile && _model.Request.Settings.Interpolation is Interpolation.Linear or Interpolation.LogLinear)
        {
            var logarithmic = _model.Request.Settings.Interpolation == Interpolation.LogLinear;
            TrialPercentile.Read((double)asked.Percent.GetValueOrDefault(), repaired, logarithmic ? logs : sizes, _cuts, logarithmic, output);
        }
        else
        {
            OneByOne(asked, percent, sizes, logs, output);
        }
    }

    private void OneByOne(Subject subject, ReadOnlySpan<double> percent, ReadOnlySpan<double> sizes, ReadOnlySpan<double> logs, Span<double> output)
    {
        Span<double> own = stackalloc double[3 * _cuts];
        for (var trial = 0; trial < Width; trial++)
        {
            for (var cut = 0; cut < _cuts; cut++)
            {
                own[cut] = percent[(cut * Width) + trial];
                own[_cuts + cut] = sizes[(cut * Width) + trial];
                own[(2 * _cuts) + cut] = logs[(cut * Width) + trial];
            }

            output[trial] = _model.Value(subject, -1, own[.._cuts], own.Slice(_cuts, _cuts), own[(2 * _cuts)..]);
        }
    }

    private static void Add(Span<double> column, ReadOnlySpan<double> other, double factor)
    {
        var to = MemoryMarshal.Cast<double, Vector256<double>>(column);
        var from = MemoryMarshal.Cast<double, Vector256<double>>(other);
        for (var i = 0; i < to.Length; i++)
        {
            to[i] = Vector256.FusedMultiplyAdd(from[i], Vector256.Create(factor), to[i]);
        }
    }
}
