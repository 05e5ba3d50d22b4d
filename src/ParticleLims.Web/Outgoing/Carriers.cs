using ParticleLims.Laboratory.Outgoing;

namespace ParticleLims.Web.Outgoing;

/// <summary>Carries a message to the other side by one way.</summary>
internal interface ICarrier
{
    /// <summary>The way.</summary>
    OutgoingWay Way { get; }

    /// <summary>Carries it and answers what the other side said.</summary>
    /// <exception cref="NotCarriedException">In words without secrets: it was not taken.</exception>
    Task<string> CarryAsync(Letter letter, CancellationToken cancellation);
}

/// <summary>A message was not taken; the words stand in the log of tries. What a server answered may hold anything, and a line of a log is one line.</summary>
internal sealed class NotCarriedException(string words, Exception? fault = null)
    : Exception(string.Concat(words.Select(letter => char.IsControl(letter) ? ' ' : letter)), fault)
{
    /// <summary>Whether the other side would refuse it again; then it is not tried any more.</summary>
    public bool ForGood { get; init; }
}

/// <summary>How long one try may last.</summary>
/// <param name="Limit">The limit; then the try has failed.</param>
internal sealed record CarryingTime(TimeSpan Limit)
{
    /// <summary>Long enough for a slow mail server, short enough that the next message does not wait long.</summary>
    public static CarryingTime Usual { get; } = new(TimeSpan.FromSeconds(30));
}
