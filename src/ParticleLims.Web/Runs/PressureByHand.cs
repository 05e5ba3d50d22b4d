using System.Globalization;
using ParticleLims.Analysis.Quantities;
using ParticleLims.Laboratory.Record;
using ParticleLims.Laboratory.Runs;

namespace ParticleLims.Web.Runs;

/// <summary>A differential pressure as somebody typed it from the gauge, in kPa.</summary>
/// <param name="Seen">The pressure; null when nothing was typed, or something is wrong.</param>
/// <param name="Problem">What is wrong, in words; null when nothing is.</param>
/// <param name="IsUnfinished">Whether something was typed that does not make a pressure yet.</param>
public sealed record PressureByHand(PressureSeen? Seen, string? Problem, bool IsUnfinished)
{
    private const decimal HighestKilopascals = 200;

    /// <summary>Reads three fields: all empty, or all three with a decimal point, lowest to highest, 0 to 200 kPa to the pascal.</summary>
    public static PressureByHand Read(string lowest, string mean, string highest)
    {
        string[] texts = [lowest.Trim(), mean.Trim(), highest.Trim()];
        if (texts.All(text => text.Length == 0))
        {
            return new PressureByHand(null, null, IsUnfinished: false);
        }

        if (texts.FirstOrDefault(text => text.Length > 0 && Pascals(text) is null) is { } wrong)
        {
            return new PressureByHand(null, $"“{wrong}” is not a pressure. Write kPa with a decimal point, for example 3.2, from 0 to 200.", IsUnfinished: true);
        }

        return texts.Any(text => text.Length == 0) ? new PressureByHand(null, "Give lowest, mean and highest, or leave all three empty.", IsUnfinished: true) : Check(texts);
    }

    private static PressureByHand Check(string[] texts)
    {
        var seen = new PressureSeen(Pascals(texts[0])!.Value, Pascals(texts[1])!.Value, Pascals(texts[2])!.Value);
        try
        {
            seen.Check();
            return new PressureByHand(seen, null, IsUnfinished: false);
        }
        catch (RefusedException refusal)
        {
            return new PressureByHand(null, refusal.Message, IsUnfinished: true);
        }
    }

    private static Pressure? Pascals(string text) =>
        decimal.TryParse(text, NumberStyles.AllowDecimalPoint, CultureInfo.InvariantCulture, out var kilopascals) && kilopascals <= HighestKilopascals && decimal.Truncate(kilopascals * 1_000) == kilopascals * 1_000
            ? Pressure.FromPascals((long)(kilopascals * 1_000))
            : null;
}
