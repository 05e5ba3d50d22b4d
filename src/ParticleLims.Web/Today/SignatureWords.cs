using ParticleLims.Laboratory.Today;

namespace ParticleLims.Web.Today;

/// <summary>What waits for a signature, in words, and where it is signed.</summary>
internal static class SignatureWords
{
    /// <summary>What it is.</summary>
    public static string Of(SignatureNeed need) => need switch
    {
        SignatureNeed.Invalidation => "invalidation of a run",
        SignatureNeed.Hypothesis => "hypothesis measurements",
        SignatureNeed.Retests => "retests",
        SignatureNeed.Reopening => "lot to be opened again",
        _ => throw new ArgumentOutOfRangeException(nameof(need), need, "Not a need."),
    };

    /// <summary>The page on which it is signed.</summary>
    public static string Address(SignatureWaiting one)
    {
        ArgumentNullException.ThrowIfNull(one);
        var place = one.PlaceId.ToString("D");
        return one.Need switch
        {
            SignatureNeed.Invalidation => $"/review/{place}",
            SignatureNeed.Reopening => $"/decisions/{place}",
            _ => $"/investigations/{place}",
        };
    }
}
