namespace ParticleLims.Web.Runs;

/// <summary>Faults at the bench, for the log.</summary>
internal static partial class RunFaults
{
    [LoggerMessage(Level = LogLevel.Error, Message = "A deed on run {Run} was not carried out.")]
    public static partial void NotCarriedOut(ILogger log, Guid run, Exception fault);

    [LoggerMessage(Level = LogLevel.Error, Message = "Run {Run} could not be read.")]
    public static partial void NotRead(ILogger log, Guid run, Exception fault);
}
