namespace TastingKit;

/// <summary>The two answers of a difference in words that leave no doubt which was decided and which was not.</summary>
internal static class MethodWords
{
    /// <summary>Both answers, for the end of a sentence that has told the difference.</summary>
    public static string Verdict(MethodAnswer answer, double margin) => (answer.Direction != Direction.Undecided, answer.Size) switch
    {
        (true, Size.Matters) => "enough to matter",
        (true, Size.TooSmallToMatter) => $"real, but too small to matter (less than {NumberText.Fixed(margin)} points)",
        (true, _) => $"real; whether it is enough to matter ({NumberText.Fixed(margin)} points) is undecided",
        (false, Size.TooSmallToMatter) => $"no difference that matters: less than {NumberText.Fixed(margin)} points either way",
        (false, _) => "undecided, which is not the same as no difference",
    };

    /// <summary>What it would take to tell an undecided difference, as the end of a sentence.</summary>
    /// <param name="further">What it would take.</param>
    /// <param name="margin">The margin.</param>
    /// <param name="half">What half of the cups would have, for example <c>half with each</c>.</param>
    public static string Say(FurtherCups further, double margin, string half) => further.Match(
        _ => "nothing further is needed.",
        needed => $"were the difference {NumberText.Fixed(margin)} points, "
            + (needed.SameCoffees is { } cups
                ? $"{cups} more cups of the same coffees, {half}, or {NumberText.Count(needed.Coffees, "further coffee")} of {needed.CupsACoffee} cups would show it in 80 of 100 such logs{(needed.CoffeesRatherThanCups ? ": more coffees, not more cups" : "")}."
                : $"{NumberText.Count(needed.Coffees, "further coffee")} of {needed.CupsACoffee} cups, {half}, would show it in 80 of 100 such logs; more cups of the same coffees would not: more coffees, not more cups."),
        _ => $"even a thousand further cups would not show a difference of {NumberText.Fixed(margin)} points in 80 of 100 such logs.");

    public static string Interval(double low, double high, double level) => $"{Level(level)} interval {NumberText.DifferenceInterval(low, high)}";

    /// <summary>A level of confidence as it stands before the word interval.</summary>
    public static string Level(double level) => $"{NumberText.Fixed(100 * level, level == 0.95 ? 0 : 1)} %";

    public static string Word(Direction direction) => direction switch
    {
        Direction.Higher => "higher",
        Direction.Lower => "lower",
        _ => "undecided",
    };

    public static string Word(Size size) => size switch
    {
        Size.Matters => "matters",
        Size.TooSmallToMatter => "too small to matter",
        _ => "undecided",
    };

    public static string Named(TastingAttribute attribute) => attribute.Equals(TastingAttribute.Score) ? "the score" : attribute.Name;

    public static string SentenceCase(string text) => char.ToUpperInvariant(text[0]) + text[1..];

    public static string Lowered(string sentence) => char.ToLowerInvariant(sentence[0]) + sentence[1..];
}
