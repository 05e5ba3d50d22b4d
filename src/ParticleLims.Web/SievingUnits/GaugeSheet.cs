using ParticleLims.Analysis.Quantities;
using ParticleLims.Laboratory.SievingUnits;

namespace ParticleLims.Web.SievingUnits;

/// <summary>Where a gauge answers as it stands in a form.</summary>
public sealed class GaugeSheet
{
    /// <summary>The units to choose from.</summary>
    public static readonly PressureUnit[] Units = Enum.GetValues<PressureUnit>();

    /// <summary>Host name or address; empty for no gauge.</summary>
    public string Host { get; set; } = string.Empty;

    /// <summary>The TCP port.</summary>
    public decimal? Port { get; set; }

    /// <summary>The place of the unit in the list.</summary>
    public int Unit { get; set; } = Array.IndexOf(Units, PressureUnit.Kilopascal);

    /// <summary>A unit's gauge as the form begins with it.</summary>
    public static GaugeSheet Of(SievingUnit unit)
    {
        ArgumentNullException.ThrowIfNull(unit);
        return new GaugeSheet { Host = unit.GaugeHost ?? string.Empty, Port = unit.GaugePort, Unit = Array.IndexOf(Units, unit.GaugeUnit) };
    }

    /// <summary>What is handed to the laboratory; null for no gauge.</summary>
    public GaugeCard? Card() => Host.Trim().Length == 0 ? null : new GaugeCard(Host, (int)(Port ?? 0), Units[Unit]);
}
