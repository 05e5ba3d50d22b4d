using ParticleLims.Analysis.Balances;
using ParticleLims.Laboratory.Balances;
using ParticleLims.Laboratory.Exchange;

namespace ParticleLims.Web.Exchange;

/// <summary>The columns of check weights.</summary>
internal static class CheckWeightColumns
{
    private static readonly WeightClass[] Classes = Enum.GetValues<WeightClass>();

    public static ExchangeColumn Serial { get; } = new("Serial number", null, "serial", "On it or on its case.") { Required = true, IsText = true, Longest = 60 };
    public static ExchangeColumn Nominal { get; } = new("Nominal mass", "g", "nominal", "1, 2 or 5 times a power of ten.") { Required = true };
    public static ExchangeColumn Class { get; } = new("Class", null, "class", "E1, E2, F1, F2 or M1 (OIML R 111-1).") { Required = true };
    public static ExchangeColumn Place { get; } = new("Place", null, "place", "Where it lies.") { Required = true, IsText = true };
    public static ExchangeColumn Certificate { get; } = new("Certificate number", null, "certificate", "Its calibration certificate brings it into service. Without one leave these columns empty.") { IsText = true };
    public static ExchangeColumn CalibratedOn { get; } = new("Calibrated on", null, "calibratedOn", "A day: 2026-03-02.");
    public static ExchangeColumn Conventional { get; } = new("Conventional mass", "g", "conventionalMass", "From the certificate.");
    public static ExchangeColumn Uncertainty { get; } = new("Expanded uncertainty (k = 2)", "mg", "uncertainty", "From the certificate.");
    public static ExchangeColumn ComparedWith { get; } = new("Compared with the weight", null, "comparedWith", "The number of the calibrating laboratory's standard.") { IsText = true };
    public static ExchangeColumn CountsUntil { get; } = new("Certificate counts until", null, "dueOn", "A day. A certificate that no longer counts is not taken over.");

    private static ExchangeColumn[] Calibration { get; } = [Certificate, CalibratedOn, Conventional, Uncertainty, ComparedWith, CountsUntil];

    public static IReadOnlyList<ExchangeColumn> All { get; } = [Serial, Nominal, Class, Place, .. Calibration, .. PlateColumns.Plain, .. LifeColumns.All, .. CheckWeightTelling.Columns];

    /// <summary>Reads a row.</summary>
    public static RegisterRow Read(RowPlace place, RowReader cells)
    {
        ArgumentNullException.ThrowIfNull(cells);
        var (serial, nominal, weightClass, where) = (cells.Text(Serial), cells.Mass(Nominal), cells.Choice(Class, Classes, one => one.ToString()), cells.Text(Place));
        var (certificate, plate, life) = (CertificateOf(cells), PlateColumns.Read(cells), cells.Life());
        return cells.Findings.Count > 0
            ? new UnreadableRow(place, RegisterKind.CheckWeights, serial, cells.Findings)
            : new WeightRow(place, new CheckWeightCard(serial, nominal!.Value, weightClass!.Value, where) { Plate = plate }, certificate, life);
    }

    private static WeightCertificate? CertificateOf(RowReader cells)
    {
        if (!cells.HasAny(Calibration))
        {
            return null;
        }

        cells.RequireTogether("A certificate", Calibration);
        var (number, made, mass, uncertainty, compared, until) = (cells.Text(Certificate), cells.Day(CalibratedOn), cells.Mass(Conventional), cells.Mass(Uncertainty), cells.Text(ComparedWith), cells.Day(CountsUntil));
        return cells.Findings.Count > 0 ? null : new WeightCertificate(number, made!.Value, mass!.Value, uncertainty!.Value, compared, until!.Value);
    }
}
