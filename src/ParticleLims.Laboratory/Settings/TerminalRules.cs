using System.Globalization;
using ParticleLims.Laboratory.Record;

namespace ParticleLims.Laboratory.Settings;

/// <summary>What holds at shared terminals.</summary>
/// <param name="WeighOnlyAtEnrolled">Whether weighings are taken at enrolled terminals only.</param>
/// <param name="LockAfterMinutes">After how many minutes without a touch an enrolled terminal locks.</param>
public sealed record TerminalRules(bool WeighOnlyAtEnrolled, int LockAfterMinutes)
{
    /// <summary>Five minutes: common practice at a bench, no source.</summary>
    public const int UsualLockAfterMinutes = 5;

    /// <summary>The longest time in minutes.</summary>
    public const int Longest = 60;

    /// <summary>Refuses a time that locks nobody out or everybody.</summary>
    /// <exception cref="RefusedException">Not from 1 to <see cref="Longest"/> minutes.</exception>
    public void Check()
    {
        if (LockAfterMinutes is < 1 or > Longest)
        {
            throw new RefusedException("lock-after", string.Create(CultureInfo.InvariantCulture, $"A terminal locks after 1 to {Longest} minutes without a touch, not after {LockAfterMinutes}."), "lockAfter");
        }
    }

    /// <summary>Refuses a weighing that is entered where the laboratory allows none.</summary>
    /// <exception cref="RefusedException">The session is not at an enrolled terminal.</exception>
    internal static async Task RequireWeighingHereAsync(DeedScope scope, CancellationToken cancellation)
    {
        if (scope.By.EnrolledTerminal is null && (await SettingsKeeping.OfAsync(scope.Data, cancellation)).WeighOnlyAtEnrolledTerminals)
        {
            throw new RefusedException("terminal-not-enrolled", "This laboratory takes weighings at enrolled terminals only, and this browser is not one. Go on at a terminal of the bench, or ask the administrator to enrol this one.");
        }
    }
}
