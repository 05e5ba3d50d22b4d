namespace ParticleLims.Laboratory.Templates;

/// <summary>A part of a certificate that a template may move. The masthead always comes first, what is said about the document and the end mark always last.</summary>
public enum PaperBlock
{
    /// <summary>Customer, product, lot, sample, specification and method.</summary>
    Particulars,
    /// <summary>The table of results with limits and verdicts.</summary>
    Results,
    /// <summary>The sieve table with the distribution curve.</summary>
    Sieves,
    /// <summary>The Rosin-Rammler net, where it is wanted.</summary>
    Net,
    /// <summary>Conditions, equipment, decision rule and remarks.</summary>
    Testing,
    /// <summary>The template's own texts, where there are any.</summary>
    Notes,
    /// <summary>Who signed, and the code for the public check.</summary>
    Signatures,
}

/// <summary>Blocks in words and in their usual order.</summary>
public static class PaperBlockWords
{
    /// <summary>The order of the standard template.</summary>
    public static IReadOnlyList<PaperBlock> Usual { get; } = Enum.GetValues<PaperBlock>();

    /// <summary>The block as people say it.</summary>
    public static string Words(this PaperBlock block) => block switch
    {
        PaperBlock.Particulars => "Customer, product, lot and sample",
        PaperBlock.Results => "Results",
        PaperBlock.Sieves => "Sieves and curve",
        PaperBlock.Net => "Rosin-Rammler net",
        PaperBlock.Testing => "Testing and judgement",
        PaperBlock.Notes => "Own texts",
        PaperBlock.Signatures => "Signatures and check code",
        _ => throw new ArgumentOutOfRangeException(nameof(block), block, "Not a block."),
    };
}
