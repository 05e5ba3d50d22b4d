namespace ParticleLims.Web.Shell;

/// <summary>Light, dark, or as the machine is set. The browser keeps the choice; the request tells it, so that a page is never drawn in the wrong one first.</summary>
public sealed class Look(IHttpContextAccessor http)
{
    /// <summary>The cookie with the choice: light, dark or auto.</summary>
    public const string ChoiceCookie = "particlelims-look";

    /// <summary>The cookie with what the machine is set to: light or dark.</summary>
    public const string MachineCookie = "particlelims-machine-look";

    private readonly string machine = Known(http.HttpContext?.Request.Cookies[MachineCookie], "light");

    /// <summary>light, dark or auto.</summary>
    public string Choice { get; private set; } = Known(http.HttpContext?.Request.Cookies[ChoiceCookie], "auto");

    /// <summary>Whether pages are dark now.</summary>
    public bool IsDark => Choice == "dark" || (Choice == "auto" && machine == "dark");

    /// <summary>Light, then dark, then as the machine is set.</summary>
    public void Next() => Choice = Choice switch { "auto" => "light", "light" => "dark", _ => "auto" };

    private static string Known(string? value, string otherwise) => value is "light" or "dark" ? value : otherwise;
}
