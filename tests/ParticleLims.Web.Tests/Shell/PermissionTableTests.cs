using System.Reflection;
using Microsoft.AspNetCore.Authorization;
using Microsoft.AspNetCore.Components;
using Microsoft.AspNetCore.Components.Endpoints;
using Microsoft.AspNetCore.Routing;
using ParticleLims.Web.Shell;
using Shouldly;
using Xunit;

namespace ParticleLims.Web.Tests.Shell;

public sealed class PermissionTableTests
{
    private const string Nothing = "nothing is stated";

    // Parts of the framework that carry no data of the laboratory's: styles, scripts, and the live connection, which asks for the page's permission itself.
    private static readonly string[] OfTheFramework = ["_framework", "_blazor", "_content", "{**path:file}"];

    [Fact]
    public void Each_page_states_its_permission_as_the_table_has_it()
    {
        var pages = typeof(Routes).Assembly.GetTypes()
            .SelectMany(type => type.GetCustomAttributes<RouteAttribute>(), (type, route) => (route.Template, Who: WhoOf([.. type.GetCustomAttributes(inherit: true)])))
            .ToDictionary(page => page.Template, page => page.Who, StringComparer.Ordinal);
        Differences(pages, PermissionTable.Rows(PermissionTable.Pages)).ShouldBeEmpty();
    }

    [Fact]
    public async Task Each_endpoint_states_its_permission_as_the_table_has_it()
    {
        await using var web = await RunningWeb.StartAsync();
        var endpoints = web.Get<EndpointDataSource>().Endpoints.OfType<RouteEndpoint>().Where(IsOurs)
            .SelectMany(one => one.Metadata.GetMetadata<HttpMethodMetadata>()?.HttpMethods ?? ["*"], (one, method) => (What: $"{method} /{one.RoutePattern.RawText?.TrimStart('/')}", Who: WhoOf(one.Metadata)))
            .ToDictionary(one => one.What, one => one.Who, StringComparer.Ordinal);
        Differences(endpoints, PermissionTable.Rows(PermissionTable.Endpoints)).ShouldBeEmpty();
    }

    [Fact]
    public void A_page_that_states_nothing_would_be_found() =>
        Differences(new Dictionary<string, string> { ["/forgotten"] = WhoOf([]) }, new Dictionary<string, string> { ["/forgotten"] = "signed on" })
            .ShouldBe(["/forgotten: nothing is stated, but the table says signed on"]);

    [Fact]
    public void A_page_without_a_row_and_a_row_without_a_page_would_be_found() =>
        Differences(new Dictionary<string, string> { ["/new"] = "anybody" }, new Dictionary<string, string> { ["/gone"] = "anybody" })
            .ShouldBe(["/new: anybody, but the table says no row", "/gone: there is no such page or endpoint"]);

    private static bool IsOurs(RouteEndpoint one) =>
        one.Metadata.GetMetadata<ComponentTypeMetadata>() is null && !Array.Exists(OfTheFramework, part => one.RoutePattern.RawText?.TrimStart('/').StartsWith(part, StringComparison.Ordinal) == true)
        && one.Metadata.GetMetadata<Microsoft.AspNetCore.StaticAssets.StaticAssetDescriptor>() is null;

    private static string WhoOf(IReadOnlyList<object> stated) =>
        stated.OfType<IAllowAnonymous>().Any() ? "anybody"
        : stated.OfType<NeedsAttribute>().FirstOrDefault() is { } needs ? needs.Permission.ToString()
        : stated.OfType<IAuthorizeData>().FirstOrDefault() is not { } authorize ? Nothing
        : authorize.Policy is { } policy ? policy.Replace("api:", "token ", StringComparison.Ordinal) : "signed on";

    private static List<string> Differences(IReadOnlyDictionary<string, string> found, IReadOnlyDictionary<string, string> table) =>
        [.. found.Where(one => table.GetValueOrDefault(one.Key) != one.Value).Select(one => $"{one.Key}: {one.Value}, but the table says {table.GetValueOrDefault(one.Key, "no row")}"),
            .. table.Keys.Except(found.Keys).Select(row => $"{row}: there is no such page or endpoint")];
}
