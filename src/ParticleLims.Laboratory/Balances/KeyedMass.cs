using System.Globalization;
using System.Text.RegularExpressions;
using ParticleLims.Analysis.Quantities;
using ParticleLims.Laboratory.Record;

namespace ParticleLims.Laboratory.Balances;

/// <summary>
/// A mass that a person keys because the balance does not answer: either twice, without seeing the first, or once with a second person who
/// looked at the display and gives name and password.
/// </summary>
/// <param name="First">In grams, as it was keyed.</param>
/// <param name="Second">The same again; null where a second person confirms.</param>
/// <param name="Confirmer">Proof of the second person's password; null where it was keyed twice.</param>
public sealed partial record KeyedMass(string First, string? Second, SecretProof? Confirmer)
{
    /// <summary>The mass, or a refusal in words.</summary>
    /// <exception cref="RefusedException">It is no mass that this balance shows, or the second entry differs.</exception>
    public Mass Read(Balance balance)
    {
        ArgumentNullException.ThrowIfNull(balance);
        var decimals = DecimalsOf(balance);
        var mass = Read(First.Trim(), balance, decimals);
        if (Confirmer is null && !string.Equals(First.Trim(), Second?.Trim(), StringComparison.Ordinal))
        {
            throw new RefusedException("keyed-differs", "The second entry is not the first one, to the last digit. Read the display again and key both anew.", "second");
        }

        return mass;
    }

    /// <summary>Refuses what this balance cannot show, before it is keyed again.</summary>
    /// <exception cref="RefusedException">It is no mass that this balance shows.</exception>
    public static void RequireShowable(string keyed, Balance balance)
    {
        ArgumentNullException.ThrowIfNull(keyed);
        Read(keyed.Trim(), balance, DecimalsOf(balance));
    }

    /// <summary>The decimals of a gram that a balance shows.</summary>
    public static int DecimalsOf(Balance balance)
    {
        ArgumentNullException.ThrowIfNull(balance);
        return Enumerable.Range(0, 7).First(decimals => decimal.Round(balance.Readability.Grams, decimals) == balance.Readability.Grams);
    }

    private static Mass Read(string keyed, Balance balance, int decimals)
    {
        var form = Form().Match(keyed);
        var wanted = decimals == 0 ? "without decimals" : string.Create(CultureInfo.InvariantCulture, $"with a point and {decimals} {(decimals == 1 ? "decimal" : "decimals")}");
        if (!form.Success || form.Groups["decimals"].Length != decimals)
        {
            throw new RefusedException("keyed-form", $"Key the mass in grams as the balance shows it: digits only, {wanted}.", "first");
        }

        var mass = Mass.FromGrams(decimal.Parse(keyed, NumberStyles.AllowDecimalPoint, CultureInfo.InvariantCulture));
        return mass.Micrograms % balance.Readability.Micrograms == 0
            ? mass
            : throw new RefusedException("keyed-step", $"The balance cannot show {keyed} g: its smallest step is {balance.Readability}. Read the display again.", "first");
    }

    [GeneratedRegex(@"\A[0-9]{1,6}(\.(?<decimals>[0-9]{1,6}))?\z", RegexOptions.CultureInvariant | RegexOptions.ExplicitCapture, 1000)]
    private static partial Regex Form();
}
