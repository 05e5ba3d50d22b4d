namespace ParticleLims.Laboratory.Cautions;

/// <summary>When at the bench a caution is shown.</summary>
public enum CautionMoment
{
    /// <summary>Before the container is opened.</summary>
    Start,
    /// <summary>While the powder is dried.</summary>
    Drying,
    /// <summary>While a piece goes on the pan.</summary>
    Weighing,
    /// <summary>While the powder is sieved.</summary>
    Sieving,
    /// <summary>When the powder is put away.</summary>
    Finished,
}

/// <summary>A caution that the screen shows. It supports, and never replaces, the safety data sheet, the site's risk assessment and the supervisor's instructions.</summary>
/// <param name="Code">Its stable code, for example <c>C-21</c>.</param>
/// <param name="Words">The few words that stand at the step.</param>
/// <param name="Text">The whole text, one tap away.</param>
/// <param name="Stop">Whether it is shown every time and confirmed before the run starts.</param>
public sealed record Caution(string Code, string Words, string Text, bool Stop = false);
