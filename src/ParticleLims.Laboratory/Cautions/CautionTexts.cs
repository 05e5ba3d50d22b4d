namespace ParticleLims.Laboratory.Cautions;

/// <summary>The texts of the cautions. They say what to do and never that something is safe; the site's safety person owns them.</summary>
public static class CautionTexts
{
    /// <summary>Raised whenever a text changes, so that an acknowledgement can say which texts were read.</summary>
    public const int Version = 2;

    /// <summary>Stands over all others.</summary>
    public const string LocalRulesFirst =
        "Local rules and the site's own safety instructions come first. These reminders support, but never replace, the safety data sheet, your site's risk assessment and your supervisor's instructions. If they differ, follow the stricter one and report the difference.";

    internal static readonly Caution LocalRules = new("C-01", "Local rules and the site's own safety instructions come first.", LocalRulesFirst);

    internal static readonly Caution NoHazardData = new("C-02", "No hazard data: do not open the sample.",
        "No hazard data is recorded for this sample. Do not open, split or sieve it until its hazards are known and recorded.", Stop: true);

    internal static readonly Caution ReadHazards = new("C-03", "Read the hazards before you open the container.",
        "Read the hazards of this sample before you open the container, and confirm that the protective equipment named on its safety data sheet is on.");

    internal static readonly Caution StopAndMakeSafe = new("C-04", "Smoke, smell, shock, unusual noise or dust leaking: stop and make safe.",
        "Stop and make safe if you see smoke, smell burning, feel a shock, hear unusual noise, or see dust leaking. Your data is already saved; you do not need to finish the run.", Stop: true);

    internal static readonly Caution FineDust = new("C-10", "Fine dust: lid clamped, under extraction, the named respirator.",
        "Sieving makes fine dust that you may not see. Keep lid and pan clamped, work under extraction, and wear the respirator named for this sample. A loose paper mask is not protection.");

    internal static readonly Caution OpenSlowly = new("C-12", "Let the dust settle; open the stack slowly, under extraction.",
        "Open the stack only after the dust has settled, as long as your site's instruction says, inside the extraction, lifting one sieve at a time, slowly.");

    internal static readonly Caution Silica = new("C-13", "Respirable silica: extraction and fitted respirator, no dry sweeping.",
        "This sample can release respirable silica, which scars the lungs for life and can cause cancer. Extraction and a fitted respirator are required; no dry sweeping; exposure limits are very low.");

    internal static readonly Caution Toxic = new("C-14", "Toxic: only in the named containment.",
        "Handle only in the named containment. If you are, or may be, pregnant or breast-feeding, ask the occupational-health contact first. Wash before leaving.");

    internal static readonly Caution Sensitiser = new("C-15", "Can cause lasting allergy or asthma, even in tiny amounts.",
        "This dust can cause lasting allergy or asthma even in tiny amounts. If you ever reacted to it, do not do this test.");

    internal static readonly Caution Irritant = new("C-17", "Irritant: eye protection that seals, suitable gloves.",
        "Eye protection that seals, suitable gloves. If in eyes: rinse at once for at least 15 minutes and get help.");

    internal static readonly Caution DustBurns = new("C-20", "This dust can burn or explode when it hangs in the air.",
        "Almost any fine organic, metal or plastic powder can burn or explode when spread in air. A product that is safe in a heap may explode as a cloud. The finest pan fraction is usually the most dangerous.");

    internal static readonly Caution ConfirmFive = new("C-21", "Combustible dust: confirm all five.",
        "Confirm all five: amount within the limit for this method; no flame, hot surface, spark or smoking; stack, shaker or sieving unit and you are earthed; extraction running; no dust layer on bench, beams or equipment.", Stop: true);

    internal static readonly Caution CleanUp = new("C-23", "No compressed air, no dry brush on this dust.",
        "Never use compressed air or a dry brush to clear combustible or toxic dust. Use a vacuum approved for this dust, or damp wiping if the material does not react with water. A household vacuum can ignite dust.", Stop: true);

    internal static readonly Caution LowIgnition = new("C-25", "A spark from a person can light this powder: earthed footwear or wrist strap, metal sieves only.",
        "This powder can be lit by a spark from a person. Wear earthed footwear or a wrist strap, tested today. Metal sieves and pan only. Under 3 mJ, or if flammable vapour is present: do not sieve in air; use the approved inert or wet method.", Stop: true);

    internal static readonly Caution FineMetal = new("C-30", "Fine metal: no water, no CO2; metal-fire agent within reach.",
        "Fine metal powder can ignite from tiny sparks and burns extremely hot. No water, no CO2, no ordinary powder extinguisher. Keep the metal-fire agent (class D) or dry inert agent within reach. Separate tools; no rusty steel near aluminium or magnesium.", Stop: true);

    internal static readonly Caution Oxidiser = new("C-33", "Oxidiser: cleaned, dedicated sieves; nothing organic near it.",
        "Do not let it touch organic powder, grease, paper or wooden tools. Use cleaned, dedicated sieves: traces left from the last sample can react.", Stop: true);

    internal static readonly Caution Earthing = new("C-40", "Connect the earth lead and leave it on.",
        "Sieving charges powder, sieves and you. Connect the earth lead to the stack, shaker or sieving unit, check that it clicks, leave it on until the powder is in the closed container.");

    internal static readonly Caution StaticSpoils = new("C-43", "Static spoils weighings: discharge the sieve, let it rest.",
        "Static also spoils results: clinging fines, drifting balance. Discharge the sieve before weighing; let it rest; note any clinging.");

    internal static readonly Caution Hearing = new("C-50", "Noise: cover closed, hearing protection where marked.",
        "Shakers, tappers and air-jet sieves can pass 80 to 85 dB(A). Close the sound cover; wear hearing protection where marked. If you must shout at arm's length, it is too loud.");

    internal static readonly Caution KeepClear = new("C-51", "Fingers, hair and sleeves clear; cover closed before start.",
        "Keep fingers, hair, sleeves and lanyards clear of tapping arms, clamps and rotating parts. Cover closed before start. Unplug before clearing a fault.");

    internal static readonly Caution HeavyStack = new("C-52", "A loaded stack is heavy: two hands, or split it.",
        "A loaded stack is heavy and top-heavy. Use two hands or a partner; split the stack; keep wrists straight.");

    internal static readonly Caution Clamp = new("C-53", "Clamp evenly; check after one minute.",
        "Clamp evenly and check after one minute. A loose stack throws powder and can fly off.");

    internal static readonly Caution AirJet = new("C-60", "Air jet: exhaust through the rated filter, nozzle and vacuum earthed.",
        "Exhaust must pass a filter rated for this dust; empty and clean it after the run; a full filter can burn or explode. Nozzle and vacuum must be earthed.");

    internal static readonly Caution HotOven = new("C-63", "Oven and sieves are hot; keep below the stated limit.",
        "Oven and sieves are hot. Brass and soldered sieves lose shape when too hot: keep under the stated limit.");

    internal static readonly Caution NoOrdinaryOven = new("C-26", "Combustible or solvent-damp powder: not in an ordinary oven.",
        "Do not dry combustible or solvent-wet powder in an ordinary oven. Powder with solvent is far easier to ignite than dry powder: dry it by the approved way first; do not put it on a shaker or in an oven without approval.", Stop: true);

    internal static readonly Caution SmouldersLater = new("C-72", "Hot fines can smoulder hours later: store outside, in metal.",
        "Hot or freshly milled fines can smoulder hours later. Store them outside, in metal, as your site's instruction says.");

    internal static readonly Caution CarryCovered = new("C-67", "Carry sieves covered; do not switch off extraction for the balance.",
        "Carry sieves covered. Weigh inside the draught shield with the extraction set so that it does not disturb the balance. Lower data quality is no reason to switch off extraction for flagged dust.");

    internal static readonly Caution Waste = new("C-70", "Fines into the named closed, earthed container.",
        "Waste and fines go in the named closed, labelled, earthed container, not in the bin with oily rags, solvents or other powders.");

    internal static readonly Caution CleanBefore = new("C-71", "Clean up before leaving; report spills and near misses.",
        "Clean sieves, shaker, bench and floor before leaving; record spill and near miss: reports never count against you.");

    internal static readonly Caution RoomTemperature = new("C-80", "Weigh at room temperature, free of draught.",
        "Weigh after the sieve is at room temperature and free of draught. Do not add a lost gram to any fraction.");
}
