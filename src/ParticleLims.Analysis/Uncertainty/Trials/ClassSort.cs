namespace ParticleLims.Analysis.Uncertainty.Trials;

/// <summary>Puts many numbers in order: first each into its class by a count of the classes, then each class in itself. The order is that of any other sort.</summary>
internal static class ClassSort
{
    /// <summary>So few stand in a class on the average that they are in order at once.</summary>
    private const int InClass = 4;
    private const int FewInClass = 16;

    /// <summary>Sorts finite numbers of which the least and the greatest are known; classes in which no place is wanted are left as they come.</summary>
    public static void Sort(ReadOnlySpan<double> values, Span<double> ordered, double least, double most, Range wanted)
    {
        var classes = values.Length / InClass;
        var scale = classes / (most - least);
        if (classes < 2 || !double.IsFinite(scale))
        {
            values.CopyTo(ordered);
            ordered.Sort();
            return;
        }

        var ends = Starts(values, least, scale, classes);
        foreach (var value in values)
        {
            ordered[ends[ClassOf(value, least, scale, classes)]++] = value;
        }

        var (first, count) = wanted.GetOffsetAndLength(values.Length);
        for (int i = 0, start = 0; i < classes; start = ends[i], i++)
        {
            if (ends[i] > first && start < first + count)
            {
                SortFew(ordered[start..ends[i]]);
            }
        }
    }

    private static int ClassOf(double value, double least, double scale, int classes) => Math.Min(classes - 1, (int)((value - least) * scale));

    /// <summary>How many values lie in all classes before each.</summary>
    private static int[] Starts(ReadOnlySpan<double> values, double least, double scale, int classes)
    {
        var starts = new int[classes];
        foreach (var value in values)
        {
            starts[ClassOf(value, least, scale, classes)]++;
        }

        for (int i = 0, before = 0; i < classes; i++)
        {
            (starts[i], before) = (before, before + starts[i]);
        }

        return starts;
    }

    private static void SortFew(Span<double> values)
    {
        if (values.Length > FewInClass)
        {
            values.Sort();
            return;
        }

        for (var i = 1; i < values.Length; i++)
        {
            var (value, at) = (values[i], i);
            for (; at > 0 && values[at - 1] > value; at--)
            {
                values[at] = values[at - 1];
            }

            values[at] = value;
        }
    }
}
