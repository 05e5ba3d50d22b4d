using ParticleLims.Analysis.Quantities;
using ParticleLims.Laboratory.Balances;
using ParticleLims.Laboratory.Methods;
using ParticleLims.Laboratory.Record;

namespace ParticleLims.Laboratory.Runs;

/// <summary>What a mass must be to be believed at its step. The refusal names the weighings it compares and says what to do.</summary>
public static class Plausibility
{
    /// <summary>An empty sieve this far from its own history is another sieve (common practice, no source).</summary>
    public static readonly Mass AnotherSieve = Mass.FromMicrograms(1_000_000);

    /// <summary>An empty sieve this much heavier than usual has something in its mesh, this much lighter has lost something (common practice, no source).</summary>
    public static readonly Mass UnusualTare = Mass.FromMicrograms(20_000);

    /// <summary>The refusals of an empty sieve that is taken once it was looked at.</summary>
    public static readonly IReadOnlyList<string> ToBeLookedAt = ["sieve-residue", "sieve-loss"];

    /// <summary>Three standard uncertainties of the sum or difference of so many weighings: repeatability and the rounding of the display (GUM 4.3.7, 5.1.2).</summary>
    /// <param name="balance">The balance of all of them.</param>
    /// <param name="weighings">How many are compared: two for "after" with "before", four for a residue with a portion, each of which is a difference itself.</param>
    public static Mass Tolerance(Balance balance, int weighings)
    {
        ArgumentNullException.ThrowIfNull(balance);
        double repeatability = balance.Repeatability.Micrograms, readability = balance.Readability.Micrograms;
        return Mass.FromMicrograms((long)Math.Ceiling(3 * Math.Sqrt(weighings * ((repeatability * repeatability) + (readability * readability / 12)))));
    }

    /// <summary>Refuses a mass that cannot be right.</summary>
    /// <exception cref="RefusedException">Says what is wrong and what to do.</exception>
    public static void Require(Run run, MethodVersion method, RunStep step, Mass mass, Balance balance, Mass? usualTare)
    {
        BalanceReading.RequireWithinCapacity(balance, mass);
        var (ofTwo, ofFour) = (Tolerance(balance, 2), Tolerance(balance, 4));
        Refuse(mass <= Mass.Zero, "mass-not-positive", $"The balance shows {mass}. Put the {step.Weighing!.Value.Words()} on the pan, or set the balance to zero first.");
        switch (step.Weighing)
        {
            case WeighingKind.Empty:
                RequireUsualTare(run, step, mass, usualTare, ofTwo);
                break;
            case WeighingKind.Loaded:
                RequirePowder(run, method, step, mass, ofTwo, ofFour);
                break;
            case WeighingKind.ContainerLoaded:
                RequirePortion(method, mass - Standing(run, WeighingKind.ContainerEmpty, 0));
                break;
            case WeighingKind.After when method.Procedure == SievingProcedure.NestedStack:
                RequireNotBelow(mass, Standing(run, WeighingKind.Empty, step.Position), ofTwo, "empty sieve");
                RequireWithin(mass - Standing(run, WeighingKind.Empty, step.Position), PortionOf(run), ofFour, "residue");
                break;
            case WeighingKind.After:
                RequireNotBelow(mass, Standing(run, WeighingKind.Empty, step.Position), ofTwo, "empty sieve");
                RequireNotGained(mass, step.Round == 0 ? Standing(run, WeighingKind.Loaded, step.Position) : Standing(run, WeighingKind.After, step.Position, step.Round - 1), ofTwo);
                break;
            case WeighingKind.ReceiverAfter:
                RequireNotBelow(mass, Standing(run, WeighingKind.ReceiverEmpty, 0), ofTwo, "empty receiver");
                RequireWithin(mass - Standing(run, WeighingKind.ReceiverEmpty, 0), PortionOf(run), ofFour, "fines");
                break;
            case WeighingKind.CollectorAfter:
                RequireNotBelow(mass, Standing(run, WeighingKind.CollectorEmpty, 0), ofTwo, "empty collector");
                RequireWithin(mass - Standing(run, WeighingKind.CollectorEmpty, 0), Portions(run, method), ofFour, "fines in the collector");
                break;
        }
    }

    private static void RequireUsualTare(Run run, RunStep step, Mass mass, Mass? usualTare, Mass ofTwo)
    {
        if (usualTare is not { } usual)
        {
            return;
        }

        var (off, sieve) = (mass - usual, run.Sieves.Single(sieve => sieve.Position == step.Position).SieveSerial);
        var amount = Mass.FromMicrograms(Math.Abs(off.Micrograms));
        var compared = $"This sieve weighs {mass}; sieve {sieve} usually weighs {usual}.";
        Refuse(amount > AnotherSieve, "sieve-tare", $"{compared} It is {off} off: another sieve is on the pan{(off > Mass.Zero ? ", or something lies on it" : string.Empty)}.");
        if (amount <= UnusualTare || amount <= ofTwo || run.IsLookedAt(step.Position))
        {
            return;
        }

        Refuse(off > Mass.Zero, "sieve-residue", $"{compared} It is {amount} heavier: residue is left in the mesh, or it is damp. Clean it the way its card says and weigh it again.");
        Refuse(off < Mass.Zero, "sieve-loss", $"{compared} It is {amount} lighter: wire or solder may be lost. Look at the mesh against the light. If it is damaged, put it out of service, keep all fractions and tell the quality manager: broken wire may be in a product.");
    }

    private static void RequirePowder(Run run, MethodVersion method, RunStep step, Mass mass, Mass ofTwo, Mass ofFour)
    {
        var powder = mass - Standing(run, WeighingKind.Empty, step.Position);
        if (method.Procedure == SievingProcedure.SeparatePortions || step.Position == 1)
        {
            RequirePortion(method, powder);
            return;
        }

        var carried = Standing(run, WeighingKind.After, step.Position - 1) - Standing(run, WeighingKind.Empty, step.Position - 1);
        Refuse(powder - carried > ofFour, "mass-gained", $"Mass gained: the residue carried over from the sieve before was {carried}, now {powder} lies on this sieve. Check that it was brushed empty and that nothing else lies on the pan.");
        Refuse(Mass.Zero - powder > ofTwo, "mass-lost", $"The sieve with powder weighs {mass}, less than the empty sieve. Check that the right sieve is on the pan.");
    }

    private static void RequirePortion(MethodVersion method, Mass portion) =>
        Refuse(portion < method.PortionLeast || portion > method.PortionMost, "portion-range", $"The test portion is {portion}; the method asks for {method.PortionLeast} to {method.PortionMost}. Add or take away powder and weigh again.");

    private static void RequireNotGained(Mass after, Mass loaded, Mass tolerance) =>
        Refuse(after - loaded > tolerance, "mass-gained", $"Mass gained: {loaded} before sieving, {after} after it. Check that the right sieve is on the pan and weigh again.");

    private static void RequireNotBelow(Mass after, Mass empty, Mass tolerance, string what) =>
        Refuse(empty - after > tolerance, "below-empty", $"It weighs {after}, less than the {what} ({empty}). Check that the right piece is on the pan and weigh again.");

    private static void RequireWithin(Mass part, Mass portion, Mass tolerance, string what) =>
        Refuse(part - portion > tolerance, "mass-gained", $"Mass gained: the {what} weighs {part}, more than the test portion of {portion}. Check what is on the pan and weigh again.");

    private static Mass PortionOf(Run run) => Standing(run, WeighingKind.ContainerLoaded, 0) - Standing(run, WeighingKind.ContainerEmpty, 0);

    // Whatever was put on the sieves from the container; a carried residue is put on once.
    private static Mass Portions(Run run, MethodVersion method) => run.Sieves
        .Where(sieve => method.Procedure == SievingProcedure.SeparatePortions || sieve.Position == 1)
        .Aggregate(Mass.Zero, (sum, sieve) => sum + Standing(run, WeighingKind.Loaded, sieve.Position) - Standing(run, WeighingKind.Empty, sieve.Position));

    private static Mass Standing(Run run, WeighingKind kind, int position, int round) =>
        run.Find(kind, position, round)?.Mass ?? throw new RefusedException("step-order", $"The {kind.Words()} has not been weighed yet.");

    private static Mass Standing(Run run, WeighingKind kind, int position) =>
        run.Find(kind, position)?.Mass ?? throw new RefusedException("step-order", $"The {kind.Words()} has not been weighed yet.");

    private static void Refuse(bool when, string code, string words)
    {
        if (when)
        {
            throw new RefusedException(code, words, "reading");
        }
    }
}
