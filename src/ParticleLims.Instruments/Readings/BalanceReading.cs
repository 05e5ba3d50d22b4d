using ParticleLims.Analysis.Quantities;

namespace ParticleLims.Instruments.Readings;

/// <summary>A line that was understood without doubt, beside the line itself.</summary>
/// <param name="Mass">The mass shown, exactly.</param>
/// <param name="Decimals">The decimals of a gram that the balance showed, 0 to 6 (0 also for a step of tens of grams; see <paramref name="LastDigit"/>).</param>
/// <param name="LastDigit">The worth of one step in the last digit shown, from 1 µg.</param>
/// <param name="Stable">Whether the balance itself called the reading stable.</param>
/// <param name="RawLine">The line as it came, without its terminator.</param>
/// <param name="At">When the line was complete.</param>
/// <param name="DeviceSerial">The serial number of the balance, where the line carries one.</param>
public sealed record BalanceReading(
    Mass Mass,
    int Decimals,
    Mass LastDigit,
    bool Stable,
    string RawLine,
    DateTimeOffset At,
    string? DeviceSerial) : BalanceLine(RawLine, At);
