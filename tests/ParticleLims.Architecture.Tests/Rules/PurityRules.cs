using ParticleLims.Architecture.Tests.Canaries;
using ParticleLims.Architecture.Tests.Reading;

namespace ParticleLims.Architecture.Tests.Rules;

/// <summary>What the engine may not touch: the same input gives the same bits on every machine, at any time.</summary>
internal static class PurityRules
{
    private const string Engine = "ParticleLims.Analysis";

    private const string PlatformFunctions = "Log LogP1 Log2 Log10 Exp ExpM1 Pow Cbrt RootN Sin Cos SinCos Tan Asin Acos Atan Atan2 Sinh Cosh Tanh Asinh Acosh Atanh";

    private static readonly (string Name, string Why, string[] Forbidden)[] MayNotUse =
    [
        ("The engine reads and writes no file", "Whoever calls it gives it all it needs.", ["System.IO", "System.Console", "System.Diagnostics.Process"]),
        ("The engine reaches no network", "Whoever calls it gives it all it needs.", ["System.Net"]),
        ("The engine starts no task, thread or timer", "One caller, one answer; the order of operations decides the last bit.",
            ["System.Threading.Tasks", "System.Threading.Thread", "System.Threading.ThreadPool", "System.Threading.Timer"]),
        ("The engine takes no chance", "A model uses a seeded generator of its own.", ["System.Random", "System.Guid", "System.Security.Cryptography.RandomNumberGenerator"]),
        ("The engine has no clock", "A result does not depend on when it is computed.",
        [
            "System.TimeProvider", "System.Diagnostics.Stopwatch", "System.DateTime.get_Now", "System.DateTime.get_UtcNow", "System.DateTime.get_Today",
            "System.DateTimeOffset.get_Now", "System.DateTimeOffset.get_UtcNow",
        ]),
        ("The engine asks nothing about the machine or the user's language", "A result does not depend on where it is computed.",
        [
            "System.Environment", "System.AppContext", "System.AppDomain", "System.Runtime.InteropServices.RuntimeInformation",
            "System.Globalization.CultureInfo.get_CurrentCulture", "System.Globalization.CultureInfo.get_CurrentUICulture",
        ]),
        ("The engine uses no elementary function of the platform", "Its last bit differs from machine to machine; square root and rounding do not.",
            [.. new[] { "System.Math.", "System.Double." }.SelectMany(type => PlatformFunctions.Split(' ').Select(function => type + function))]),
    ];

    public static IReadOnlyList<Rule> All { get; } =
    [
        .. MayNotUse.Select(row => new Rule<BuiltType>(
            row.Name, row.Why, () => BuiltAssembly.TypesOf(Engine), type => type.UsesOf(row.Forbidden).Select(use => $"{type} uses {use}."), GuiltyOf(row.Forbidden))),
        new Rule<BuiltType>(
            "The engine keeps nothing in static fields that can change",
            "Two evaluations at once, or one after the other, must not see each other.",
            () => BuiltAssembly.TypesOf(Engine),
            type => type.StaticFields.Where(CanChange).Select(field => $"{type}.{field.Name} can change."),
            Canary(typeof(ForgetfulCanary)), Canary(typeof(CollectingCanary)), Canary(typeof(LentArrayCanary))),
    ];

    private static BuiltType[] GuiltyOf(string[] forbidden) =>
        [.. new[] { typeof(FileCanary), typeof(NetworkCanary), typeof(TaskCanary), typeof(ChanceCanary), typeof(ClockCanary), typeof(MachineCanary), typeof(PowerCanary) }
            .Select(Canary).Where(canary => canary.UsesOf(forbidden).Any())];

    private static BuiltType Canary(Type type) => BuiltAssembly.TypesOf("ParticleLims.Architecture.Tests").Single(one => one.Name == type.FullName);

    // A private table of constants may be an array: nobody else can reach it.
    private static bool CanChange(StaticField field) =>
        !field.ReadOnly
        || field.Type.StartsWith("System.Collections.Generic.", StringComparison.Ordinal) && !field.Type.StartsWith("System.Collections.Generic.I", StringComparison.Ordinal)
        || field.Type.StartsWith("System.Collections.Concurrent.", StringComparison.Ordinal)
        || field.Type is "System.Text.StringBuilder"
        || field.Type.EndsWith("[]", StringComparison.Ordinal) && !field.Private;
}
