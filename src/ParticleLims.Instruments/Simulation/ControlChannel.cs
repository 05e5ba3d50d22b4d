using System.Globalization;
using ParticleLims.Analysis.Quantities;

namespace ParticleLims.Instruments.Simulation;

/// <summary>
/// The words by which a script plays the technician: <c>PAN grams</c>, <c>CLEAR</c>, <c>DISTURB</c>, <c>TARE</c>,
/// <c>ZERO</c>, <c>SHOW</c>, <c>SEND line</c>, <c>DROP</c>. The answer is <c>OK</c>, with what was asked for, or
/// <c>ERR</c> with the reason.
/// </summary>
internal sealed class ControlChannel(SimulatedBalance balance)
{
    public string Answer(string command)
    {
        var words = command.Split(' ', 2);
        var (word, rest) = (words[0], words.Length == 2 ? words[1] : "");
        return (word, rest.Length > 0) switch
        {
            ("PAN", true) => Pan(rest),
            ("SEND", true) => Done(() => balance.SendRaw(rest)),
            ("CLEAR", false) => Done(balance.ClearPan),
            ("DISTURB", false) => Done(balance.Disturb),
            ("TARE", false) => Done(balance.Tare),
            ("ZERO", false) => balance.Zero() ? "OK" : "ERR the pan is not empty",
            ("SHOW", false) => $"OK {balance.CurrentLine()}",
            ("DROP", false) => Done(balance.DropConnections),
            ("PAN", false) => "ERR PAN needs a mass in grams",
            _ => "ERR unknown command: use PAN grams, CLEAR, DISTURB, TARE, ZERO, SHOW, SEND line or DROP",
        };
    }

    private string Pan(string grams)
    {
        const NumberStyles Plain = NumberStyles.AllowDecimalPoint | NumberStyles.AllowLeadingSign;
        if (!decimal.TryParse(grams, Plain, CultureInfo.InvariantCulture, out var value))
        {
            return $"ERR '{grams}' is not a mass in grams";
        }

        try
        {
            balance.LoadPan(Mass.FromGrams(value));
            return "OK";
        }
        catch (ArgumentOutOfRangeException)
        {
            return "ERR a load lies between 0 g and 1000 kg and is given to the microgram";
        }
    }

    private static string Done(Action deed)
    {
        deed();
        return "OK";
    }
}
