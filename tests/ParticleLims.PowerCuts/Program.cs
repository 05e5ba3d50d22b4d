using System.Globalization;
using ParticleLims.PowerCuts;

// server FOLDER PORT: the process that is killed. KILLS [SEED]: a campaign.
if (args is ["server", var folder, var port])
{
    await CutServer.RunAsync(folder, int.Parse(port, CultureInfo.InvariantCulture));
    return 0;
}

if (args.Length is 0 or > 2 || !int.TryParse(args[0], CultureInfo.InvariantCulture, out var kills))
{
    Console.Error.WriteLine("Say how many kills: ParticleLims.PowerCuts KILLS [SEED]");
    return 2;
}

var seed = args.Length > 1 ? int.Parse(args[1], CultureInfo.InvariantCulture) : 1;
var result = await Campaign.RunAsync(kills, seed, Console.WriteLine);
Console.WriteLine(FormattableString.Invariant($"{result.Kills} kills, {result.Acknowledged} weighings acknowledged, {result.Stored} stored, {result.Unanswered} lines unanswered; {result.Lost} lost, {result.Doubled} doubled, {result.Refusals.Count} refusals, chain {result.ChainFault ?? "whole"}."));
foreach (var refusal in result.Refusals.Take(10))
{
    Console.WriteLine(refusal);
}

return result.IsClean ? 0 : 1;
