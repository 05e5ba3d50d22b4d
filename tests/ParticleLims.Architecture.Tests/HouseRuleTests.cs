using ParticleLims.Architecture.Tests.Rules;
using Shouldly;
using Xunit;

namespace ParticleLims.Architecture.Tests;

public sealed class HouseRuleTests
{
    private static readonly Rule[] Rules =
    [
        .. ProjectRules.All, .. PurityRules.All, .. DatabaseRules.All, .. FolderRules.All, .. DocumentationRules.All, .. ReferenceDataRules.All, .. WordRules.All,
    ];

    public static TheoryData<string> Names => [.. Rules.Select(rule => rule.Name)];

    [Theory]
    [MemberData(nameof(Names))]
    public void The_house_keeps_the_rule(string name)
    {
        var rule = Find(name);
        var (examined, faults) = rule.Judge();
        examined.ShouldBePositive("a rule that concerns nobody guards nothing");
        faults.ShouldBeEmpty($"{rule.Why}{Environment.NewLine}{string.Join(Environment.NewLine, faults)}");
    }

    [Theory]
    [MemberData(nameof(Names))]
    public void The_rule_reports_its_guilty_canary(string name) => Find(name).UnreportedCanaries().ShouldBeEmpty();

    [Fact]
    public void No_two_rules_have_one_name() => Rules.Select(rule => rule.Name).ShouldBeUnique();

    private static Rule Find(string name) => Rules.Single(rule => rule.Name == name);
}
