namespace ParticleLims.Web.Shell;

/// <summary>Where people practise.</summary>
/// <param name="IsHere">Whether this program is the practice laboratory.</param>
/// <param name="Address">Where the practice laboratory of this one answers; null for none.</param>
public sealed record PracticePlace(bool IsHere, Uri? Address);
