namespace ParticleLims.Laboratory.Methods;

/// <summary>What happens when the balance has not passed its check on the day.</summary>
public enum UncheckedBalance
{
    /// <summary>No run takes it.</summary>
    Refused,
    /// <summary>The run goes on, and the reviewer reads it as a finding.</summary>
    Flagged,
}

/// <summary>What happens when a residue lies under the minimum weight of the balance (USP &lt;41&gt;).</summary>
public enum SmallResidue
{
    /// <summary>It is weighed, and its uncertainty says how well.</summary>
    Stated,
    /// <summary>It is weighed, and the reviewer reads it as a finding.</summary>
    Flagged,
    /// <summary>A balance under whose minimum weight the smallest residue is expected is refused; a residue that comes out smaller all the same is a finding.</summary>
    Refused,
}

/// <summary>The rules in words.</summary>
public static class BalanceRules
{
    /// <summary>The rule as people say it.</summary>
    public static string Words(this UncheckedBalance rule) => rule switch
    {
        UncheckedBalance.Refused => "refused",
        UncheckedBalance.Flagged => "used, and a finding",
        _ => throw new ArgumentOutOfRangeException(nameof(rule), rule, "Not a rule."),
    };

    /// <summary>The rule as people say it.</summary>
    public static string Words(this SmallResidue rule) => rule switch
    {
        SmallResidue.Stated => "weighed, its uncertainty says how well",
        SmallResidue.Flagged => "weighed, and a finding",
        SmallResidue.Refused => "the balance is refused",
        _ => throw new ArgumentOutOfRangeException(nameof(rule), rule, "Not a rule."),
    };
}
