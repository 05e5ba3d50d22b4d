using ParticleLims.Analysis.Weighings;

namespace ParticleLims.Analysis.Uncertainty;

/// <summary>
/// How each percentage passing changes with each input, dQ_i/dz in percent per unit of the input, at the values that were measured (docs/science/uncertainty-propagation.md). One row a cut, one
/// column an input.
/// </summary>
internal sealed class PassingSensitivities
{
    private readonly IReadOnlyList<OrderedCut> _cuts;
    private readonly InputList _list;
    private readonly double[] _rows;
    private readonly int _inputs;

    private PassingSensitivities(IReadOnlyList<OrderedCut> cuts, InputList list)
    {
        (_cuts, _list, _inputs) = (cuts, list, list.Inputs.Count);
        _rows = new double[cuts.Count * _inputs];
    }

    /// <summary>The row of a cut.</summary>
    public ReadOnlySpan<double> Row(int cut) => _rows.AsSpan(cut * _inputs, _inputs);

    public static PassingSensitivities Of(EvaluationRequest request, WeighedTable table, IReadOnlyList<OrderedCut> cuts, InputList list)
    {
        var rows = new PassingSensitivities(cuts, list);
        switch (request.Procedure)
        {
            case Procedure.SeparatePortions:
                rows.SeparatePortions(table);
                break;
            case Procedure.CarriedResidue:
                rows.CarriedResidue(table);
                break;
            case Procedure.NestedStack:
                rows.NestedStack(request, table);
                break;
            default:
                rows.Given();
                break;
        }

        return rows;
    }

    /// <summary>R = r/m with r = a - t and m = b - t: dR = (dr - R dm)/m.</summary>
    private void SeparatePortions(WeighedTable table)
    {
        for (var i = 0; i < _cuts.Count; i++)
        {
            var scale = 100 / WeighingError.Grams(table.Cuts[i].Portion.GetValueOrDefault());
            Residue(Writable(i), i, -scale);
            Portion(Writable(i), i, scale * Share(table, i));
        }
    }

    /// <summary>
    /// R_i = r_i/m0. Where a loss is put back, R_i = R_(i-1) r_i/b'_i with b'_i what arrived on the sieve: dR_i = dR_(i-1) r/b' + R_(i-1) (dr - r/b' db')/b'. R = 1 - Q, hence the signs.
    /// </summary>
    private void CarriedResidue(WeighedTable table)
    {
        var scale = 100 / WeighingError.Grams(table.Cuts[0].Portion.GetValueOrDefault());
        for (var i = 0; i < _cuts.Count; i++)
        {
            if (_list.PutsBack(i))
            {
                CarryOn(table, i);
            }
            else
            {
                Residue(Writable(i), i, -scale);
                Portion(Writable(i), 0, scale * Share(table, i));
            }
        }
    }

    /// <summary>What arrived is b - t where it was weighed again on this sieve, else what was left on the finer one.</summary>
    private void CarryOn(WeighedTable table, int i)
    {
        var isWeighedAgain = _list.Places[i].Loaded >= 0;
        var arrived = WeighingError.Grams(isWeighedAgain ? _cuts[i].Loaded - _cuts[i].Empty : table.Cuts[i - 1].Residue.GetValueOrDefault());
        if (!(arrived > 0))
        {
            return;
        }

        var row = Writable(i);
        var before = 100 * Share(table, i - 1);
        var part = WeighingError.Grams(table.Cuts[i].Residue.GetValueOrDefault()) / arrived;
        AddRow(row, i - 1, part);
        Residue(row, i, -before / arrived);
        if (isWeighedAgain)
        {
            Portion(row, i, before * part / arrived);
        }
        else
        {
            Residue(row, i - 1, before * part / arrived);
        }
    }

    /// <summary>R_i = S_i/W with S_i the sum of the w on this and all coarser sieves: dR_i = (dS_i - R_i dW)/W; W is the sum of all, or the test portion.</summary>
    private void NestedStack(EvaluationRequest request, WeighedTable table)
    {
        var whole = WeighingError.Grams(table.Cuts[0].Portion.GetValueOrDefault());
        var ofFractions = request.Settings.Basis == PercentBasis.SumOfFractions;
        for (var i = 0; i < _cuts.Count; i++)
        {
            var row = Writable(i);
            var share = Share(table, i);
            for (var j = 0; j < _cuts.Count; j++)
            {
                Residue(row, j, -100 / whole * ((j >= i ? 1 : 0) - (ofFractions ? share : 0)));
            }

            if (ofFractions)
            {
                Put(row, _list.ReceiverAfter, 100 / whole * share);
                Put(row, _list.ReceiverEmpty, -100 / whole * share);
            }
            else
            {
                Put(row, _list.Portion, 100 / whole * share);
            }
        }
    }

    private void Given()
    {
        for (var i = 0; i < _cuts.Count; i++)
        {
            Put(Writable(i), _list.Places[i].Given, 1);
        }
    }

    /// <summary>What moves r = a - t of a cut.</summary>
    private void Residue(Span<double> row, int cut, double perGram)
    {
        var places = _list.Places[cut];
        Put(row, places.After, perGram);
        Put(row, places.Empty, -perGram);
        Put(row, places.Drift, perGram);
        Put(row, places.Sieving, perGram);
    }

    /// <summary>What moves m = b - t of a cut.</summary>
    private void Portion(Span<double> row, int cut, double perGram)
    {
        Put(row, _list.Places[cut].Loaded, perGram);
        Put(row, _list.Places[cut].Empty, -perGram);
    }

    private void AddRow(Span<double> row, int other, double factor)
    {
        for (var k = 0; k < _inputs; k++)
        {
            row[k] += factor * _rows[(other * _inputs) + k];
        }
    }

    private static void Put(Span<double> row, int place, double perUnit)
    {
        if (place >= 0)
        {
            row[place] += perUnit;
        }
    }

    /// <summary>R as a fraction.</summary>
    private static double Share(WeighedTable table, int cut) => table.Cuts[cut].RetainedPercent.ToDouble() / 100;

    private Span<double> Writable(int cut) => _rows.AsSpan(cut * _inputs, _inputs);
}
