using Microsoft.EntityFrameworkCore;
using ParticleLims.Laboratory.Balances;
using ParticleLims.Laboratory.Equipment;
using ParticleLims.Laboratory.Sieves;
using ParticleLims.Laboratory.Storage;

namespace ParticleLims.Laboratory.EquipmentFailures;

/// <summary>What only a measurement can say of an item; a look in between says nothing of it.</summary>
internal static class WhatKnown
{
    /// <summary>
    /// Whether the apertures of a sieve were last found bad, by a reference material or by measuring them, and when they were last known to be good before: by such a check that passed, by the day on which
    /// apertures that conform were measured, or else by the commissioning.
    /// </summary>
    public static async Task<(bool Failed, DateTimeOffset? GoodUntil)> OfAperturesAsync(LaboratoryContext data, Guid sieveId, CancellationToken cancellation)
    {
        var checks = await data.ReferenceChecks.Where(check => check.SieveId == sieveId).Select(check => new { check.At, check.Passed }).ToListAsync(cancellation);
        var measured = await data.ApertureMeasurements.Where(one => one.SieveId == sieveId && one.Conforms != null).Select(one => new { one.At, one.MeasuredOn, one.Conforms }).ToListAsync(cancellation);
        var bad = checks.Where(check => !check.Passed).Select(check => (DateTimeOffset?)check.At).Concat(measured.Where(one => one.Conforms == false).Select(one => (DateTimeOffset?)one.At)).Max();
        List<DateTimeOffset> good =
        [
            .. checks.Where(check => check.Passed).Select(check => check.At),
            .. measured.Where(one => one.Conforms == true).Select(one => new DateTimeOffset(one.MeasuredOn, TimeOnly.MinValue, TimeSpan.Zero)),
        ];
        if (bad is null || good.Exists(at => at > bad))
        {
            return (false, null);
        }

        var before = good.Count == 0 ? null : (DateTimeOffset?)good.Max();
        return (true, before ?? await data.EquipmentEvents.Where(one => one.EquipmentId == sieveId && one.What == "Commissioned").OrderBy(one => one.At).Select(one => (DateTimeOffset?)one.At).FirstOrDefaultAsync(cancellation));
    }

    /// <summary>The day of the last calibration of a check weight; null for anything else, and while it has none.</summary>
    public static async Task<DateTimeOffset?> CalibratedAsync(LaboratoryContext data, Guid weightId, CancellationToken cancellation) =>
        await data.Set<CheckWeightCalibration>().Where(one => one.WeightId == weightId).OrderByDescending(one => one.At).Select(one => (DateOnly?)one.CalibratedOn).FirstOrDefaultAsync(cancellation) is { } day
            ? new DateTimeOffset(day, TimeOnly.MinValue, TimeSpan.Zero)
            : null;
}
