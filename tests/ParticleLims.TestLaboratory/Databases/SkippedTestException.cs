using Xunit.v3;

namespace ParticleLims.TestLaboratory.Databases;

/// <summary>Ends the running test as skipped, with its reason; the test framework knows it by the start of its message.</summary>
public sealed class SkippedTestException : Exception
{
    /// <summary>Without a reason.</summary>
    public SkippedTestException()
        : this("no reason given")
    {
    }

    /// <summary>With the reason.</summary>
    public SkippedTestException(string reason)
        : base(DynamicSkipToken.Value + reason)
    {
    }

    /// <summary>With the reason and what caused it.</summary>
    public SkippedTestException(string reason, Exception innerException)
        : base(DynamicSkipToken.Value + reason, innerException)
    {
    }
}
