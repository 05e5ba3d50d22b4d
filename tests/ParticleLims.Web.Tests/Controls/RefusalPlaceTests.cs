using Bunit;
using Microsoft.AspNetCore.Components;
using Microsoft.AspNetCore.Components.Rendering;
using MudBlazor.Services;
using ParticleLims.Laboratory.Record;
using ParticleLims.Web.Controls;
using Shouldly;
using Xunit;

namespace ParticleLims.Web.Tests.Controls;

/// <summary>A refusal is said once: at its field where the page has it, else above.</summary>
public sealed class RefusalPlaceTests : BunitContext
{
    public RefusalPlaceTests()
    {
        JSInterop.Mode = JSRuntimeMode.Loose;
        Services.AddMudServices();
    }

    [Theory]
    [InlineData("number", 1, 0)]
    [InlineData("somethingElse", 0, 1)]
    [InlineData(null, 0, 1)]
    public async Task It_stands_at_the_field_that_it_is_about_or_above_the_page_and_never_at_both(string? member, int atField, int above)
    {
        var page = Render<PageWithField>();
        page.FindAll("[data-refusal]").ShouldBeEmpty();
        var refusal = new RefusedException("lot-number-used", "The number is used already.", member);
        await page.InvokeAsync(() => page.Instance.Refuse(refusal));
        page.WaitForAssertion(() => (Count(page, refusal.Message), page.FindAll("[data-refusal=lot-number-used]").Count).ShouldBe((1, above)));
        page.FindAll(".mud-input-error").Count.ShouldBeGreaterThanOrEqualTo(atField);
    }

    private static int Count(IRenderedComponent<PageWithField> page, string words) => page.Markup.Split(words).Length - 1;
}

/// <summary>A page with one field, and the place above it.</summary>
public sealed class PageWithField : ComponentBase
{
    private RefusedException? refusal;

    public void Refuse(RefusedException one)
    {
        refusal = one;
        StateHasChanged();
    }

    protected override void BuildRenderTree(RenderTreeBuilder builder)
    {
        builder.OpenComponent<RefusalAlert>(0);
        builder.AddComponentParameter(1, nameof(RefusalAlert.Refusal), refusal);
        builder.CloseComponent();
        builder.OpenComponent<CascadingValue<RefusedException?>>(2);
        builder.AddComponentParameter(3, nameof(CascadingValue<RefusedException?>.Value), refusal);
        builder.AddComponentParameter(4, nameof(CascadingValue<RefusedException?>.ChildContent), (RenderFragment)(inner =>
        {
            inner.OpenComponent<WordsField>(0);
            inner.AddComponentParameter(1, nameof(WordsField.Label), "Lot number");
            inner.AddComponentParameter(2, nameof(WordsField.Member), "number");
            inner.CloseComponent();
        }));
        builder.CloseComponent();
    }
}
