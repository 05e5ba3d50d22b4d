using System.Globalization;
using ParticleLims.Laboratory.Record;

namespace ParticleLims.Laboratory.People;

/// <summary>What a PIN must be. It works at enrolled terminals only and signs nothing.</summary>
public static class PinRules
{
    /// <summary>The fewest digits.</summary>
    public const int Shortest = 6;

    /// <summary>The most digits.</summary>
    public const int Longest = 12;

    /// <summary>After so many wrong tries in a row no PIN is taken until the password was given.</summary>
    public const int WrongTries = 10;

    private const string Upwards = "01234567890123456789";
    private const string Downwards = "98765432109876543210";

    /// <summary>Refuses a PIN in words.</summary>
    /// <exception cref="RefusedException">Not so many digits, or among the first guesses.</exception>
    public static void Require(string pin)
    {
        ArgumentNullException.ThrowIfNull(pin);
        if (pin.Length is < Shortest or > Longest || !pin.All(char.IsAsciiDigit))
        {
            throw new RefusedException("pin", string.Create(CultureInfo.InvariantCulture, $"A PIN has {Shortest} to {Longest} digits and nothing else."), "pin");
        }

        if (IsGuessable(pin))
        {
            throw new RefusedException("pin-guessable", "This PIN is among the first guesses: it repeats or counts. Choose digits without a pattern.", "pin");
        }
    }

    /// <summary>Whether somebody would try it first.</summary>
    internal static bool IsGuessable(string pin) =>
        pin.Distinct().Count() < 3 || Upwards.Contains(pin, StringComparison.Ordinal) || Downwards.Contains(pin, StringComparison.Ordinal)
        || pin[..(pin.Length / 2)] == pin[^(pin.Length / 2)..];
}
